//! What targets read from the bytes they are given.

/// Takes so many bytes from the front; zeros once there are none.
pub(crate) fn take<const N: usize>(data: &mut &[u8]) -> [u8; N] {
    let mut found = [0; N];
    let (front, rest) = data.split_at(N.min(data.len()));
    found[..front.len()].copy_from_slice(front);
    *data = rest;
    found
}

/// Mostly a usual number from two bytes, now and then any bits at all.
pub(crate) fn number(data: &mut &[u8], usual: impl FnOnce([u8; 2]) -> f64) -> f64 {
    let [kind] = take(data);
    match kind {
        0 => f64::from_bits(u64::from_le_bytes(take(data))),
        1 => f64::from(i16::from_le_bytes(take(data))),
        _ => usual(take(data)),
    }
}
