"""Shapes: every document that bench takes or gives, as types. They stay JSON values at run time.

A TypedDict a document, a `Literal` for each closed set of words, unions told apart by a tag. A field's comment
says its unit, its range and what None means. `bench.shapes.write` writes them out for the page and as JSON Schema.
"""
