"""The dashboard in a browser on this machine: one process a tab, nothing from outside.

door      who may come in: host, origin, the one-time token, the cookie
server    pages, downloads and the websocket behind that door
child     one tab's own process, ended with its tab and with the server
downloads files that a page takes away
driver    what that process speaks through; it ends when nobody listens any more
inside    what that process runs
"""
