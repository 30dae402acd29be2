//! Room sheet.
