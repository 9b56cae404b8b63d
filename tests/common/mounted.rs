//! A small file system of its own, to be filled or made read-only; nothing where mounting is not allowed.

#![allow(dead_code, reason = "each test file uses its own part of this")]
#![allow(clippy::panic, reason = "a failing test panics")]
#![allow(clippy::allow_attributes, reason = "not every test file meets what is expected here")]

use super::lacking::lacking;
use std::process::{Command, Stdio};
use tempfile::TempDir;

/// A file system of its own, given back at the end; nothing where that is not allowed.
pub struct Mounted(pub TempDir);

impl Mounted {
    /// A file system of so many KiB in memory.
    pub fn tmpfs(kib: u32) -> Option<Self> {
        let place = tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"));
        let mounted = Command::new("mount")
            .args(["-t", "tmpfs", "-o", &format!("size={kib}k"), "tmpfs"])
            .arg(place.path())
            .stderr(Stdio::null())
            .status();
        let can = mounted.is_ok_and(|status| status.success());
        if !can {
            lacking("no file system may be mounted");
        }
        can.then_some(Self(place))
    }

    /// From here on it can only be read.
    pub fn read_only(&self) {
        let status = Command::new("mount").args(["-o", "remount,ro"]).arg(self.0.path()).status();
        assert!(status.is_ok_and(|status| status.success()));
    }
}

impl Drop for Mounted {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("-l").arg(self.0.path()).status();
    }
}
