"""Changes of a running campaign, typed one line each as a driver would text them."""
