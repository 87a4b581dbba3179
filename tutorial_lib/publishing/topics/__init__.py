"""One module a topic: what is told of it as blocks, for the notebooks and for the sheet's pages."""
