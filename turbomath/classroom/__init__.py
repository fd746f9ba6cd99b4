"""How lessons open: work copies, JupyterLab's settings, the server, and the small extension that runs a lesson."""
