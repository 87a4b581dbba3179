"""The booklet's pages: for each kind of page a module that gathers what it shows and a typst file that lays it out."""
