//! Hands the memory map and the linker scripts to the linker.

fn main() {
    println!("cargo:rustc-link-search={}", env!("CARGO_MANIFEST_DIR"));
    println!("cargo:rustc-link-arg-bins=-Tlink.x");
    println!("cargo:rustc-link-arg-bin=session=-Tdefmt.x");
    println!("cargo:rerun-if-changed=memory.x");
}
