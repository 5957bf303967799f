//! What the vacuum gauge says of causes.
