"""Widgets know values and texts, never their meaning."""
