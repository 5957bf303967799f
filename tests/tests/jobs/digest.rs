//! The digest that answers are compared by.

use lashwork_tests::bits::digest;

/// FNV-1a of 64 bits as draft-eastlake-fnv defines it ("The FNV Non-Cryptographic Hash Algorithm").
fn fnv_1a(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

#[test]
fn it_is_the_published_one_over_every_part_with_its_length() {
    // The values for no byte, "a" and "foobar" of the same draft.
    for (text, hash) in [
        ("", 0xcbf2_9ce4_8422_2325),
        ("a", 0xaf63_dc4c_8601_ec8c),
        ("foobar", 0x8594_4171_f739_67e8),
    ] {
        assert_eq!(fnv_1a(text.as_bytes()), hash, "{text:?}");
    }
    for (parts, text) in [
        (&[][..], ""),
        (&["foobar"], "6:foobar"),
        (&["foo", "bar"], "3:foo3:bar"),
        (&["", "a"], "0:1:a"),
    ] {
        let bytes: Vec<&[u8]> = parts.iter().map(|part| part.as_bytes()).collect();
        assert_eq!(
            digest(&bytes),
            format!("{:016x}", fnv_1a(text.as_bytes())),
            "{parts:?}"
        );
    }
}
