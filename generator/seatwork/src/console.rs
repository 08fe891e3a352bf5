//! The window that Windows opens for a program which is double-clicked, and closes as soon as it ends.

use std::io::{self, BufRead, IsTerminal};

use pages::Words;

/// Waits for Enter where the window would otherwise close before anybody has read it.
pub(crate) fn keep_open(words: &Words) {
    if !closes_with_us() || !io::stdin().is_terminal() {
        return;
    }
    eprintln!("\n{}", words.get("command.window.close"));
    // Whatever comes of it, the program ends.
    let _ = io::stdin().lock().read_line(&mut String::new());
}

/// Whether the console was opened for this program alone: then nobody else is in it.
#[cfg(windows)]
#[allow(unsafe_code, reason = "the system's own call; no library offers it safely")]
pub(crate) fn closes_with_us() -> bool {
    let mut ids = [0_u32; 2];
    // SAFETY: the list is as long as the length given with it.
    unsafe { windows_sys::Win32::System::Console::GetConsoleProcessList(ids.as_mut_ptr(), 2) == 1 }
}

/// Elsewhere a terminal outlives what runs in it.
#[cfg(not(windows))]
pub(crate) fn closes_with_us() -> bool {
    false
}
