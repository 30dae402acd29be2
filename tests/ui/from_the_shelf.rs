//! Begin a bath from a lot of the shelf.
