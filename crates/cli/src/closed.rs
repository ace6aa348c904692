//! Whether the standard output was closed when the program began.
//!
//! Before `main` the standard library opens the null device in the place of a standard stream that is closed, so that no file is taken
//! for it later. From then on every answer seems to be written, and nobody can tell any more. So it is looked at before that.

use std::sync::atomic::{AtomicBool, Ordering};

static WAS_CLOSED: AtomicBool = AtomicBool::new(false);

/// As in `shophead plan job.toml >&-`. Never where it cannot be found out.
pub(crate) fn at_start() -> bool {
    WAS_CLOSED.load(Ordering::Relaxed)
}

#[cfg(unix)]
extern "C" fn look() {
    let closed = rustix::io::fcntl_getfd(rustix::stdio::stdout()).is_err();
    WAS_CLOSED.store(closed, Ordering::Relaxed);
}

// SAFETY: the loader calls what stands in this section before `main`, once, with arguments that an `extern "C"` function without any may
// leave alone. It asks the system one question and sets one flag; nothing of the standard library has to be ready for that.
#[cfg(unix)]
#[used]
#[allow(unsafe_code)]
#[cfg_attr(target_vendor = "apple", unsafe(link_section = "__DATA,__mod_init_func"))]
#[cfg_attr(not(target_vendor = "apple"), unsafe(link_section = ".init_array"))]
static LOOK: extern "C" fn() = look;
