"""What is published: blocks written as HTML for the notebook and page, and by typst for paper."""
