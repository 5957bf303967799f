//! Any bytes as calls of the header with their arguments: what each must keep to stands in `lashwork-c-calls`.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    lashwork_c_calls::make(data);
});
