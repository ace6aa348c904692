//! Gives the shared library the name under which programs look for it: `libshophead.so.` and the number in `src/version.rs`.

fn main() {
    println!("cargo:rerun-if-changed=src/version.rs");
    if std::env::var("CARGO_CFG_TARGET_OS").as_deref() != Ok("linux") {
        return;
    }
    let source = std::fs::read_to_string("src/version.rs").expect("src/version.rs");
    let line = source.lines().find_map(|line| line.strip_prefix("pub const SHOPHEAD_ABI_VERSION: u32 = "));
    let number = line.and_then(|rest| rest.strip_suffix(';')).expect("SHOPHEAD_ABI_VERSION in src/version.rs");
    println!("cargo:rustc-cdylib-link-arg=-Wl,-soname,libshophead.so.{number}");
}
