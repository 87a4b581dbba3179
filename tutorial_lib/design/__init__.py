"""The bed: options as the creator chose them, and the parts, pieces and joints that follow."""
