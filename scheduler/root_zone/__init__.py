"""Need and rain in; what ground or pot takes in and still holds out."""
