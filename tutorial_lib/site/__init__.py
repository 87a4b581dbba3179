"""The viewers' page: the creator's bed, and a viewer's own, computed by this library in their own browser.

``page`` turns a plan into HTML, at the desk and in the browser alike; ``live`` answers a viewer's choices there;
``parts`` and ``folder`` put the static folder together.
"""
