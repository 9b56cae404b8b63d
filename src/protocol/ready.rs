//! A checked protocol packed into bytes and back, so that a program can start without checking what was checked when it was built.
//!
//! The bytes follow from the types alone (postcard): they are read by the very program that was built with them, and kept nowhere.

use super::{File, Protocol};

/// The checked protocol as bytes.
///
/// # Errors
/// Never for the types of a protocol: all of them have a form in bytes.
pub fn pack(protocol: &Protocol) -> postcard::Result<Vec<u8>> {
    postcard::to_allocvec(protocol)
}

/// The files of a protocol as bytes.
///
/// # Errors
/// Never: a file is two texts.
pub fn pack_files(files: &[File]) -> postcard::Result<Vec<u8>> {
    postcard::to_allocvec(files)
}

/// Files that were folded one by one, by their names, as bytes: so that one can be unfolded without the others.
///
/// # Errors
/// Never: a file is a name and bytes.
pub fn pack_folded(files: &[(&str, Vec<u8>)]) -> postcard::Result<Vec<u8>> {
    postcard::to_allocvec(files)
}

/// What these bytes were packed from, still folded.
///
/// # Errors
/// Where the bytes are not those of [`pack_folded`].
pub fn unpack_folded(bytes: &[u8]) -> postcard::Result<Vec<(&str, &[u8])>> {
    postcard::from_bytes(bytes)
}

/// The files these bytes were packed from.
///
/// # Errors
/// Where the bytes are not those of [`pack_files`].
pub fn unpack_files(bytes: &[u8]) -> postcard::Result<Vec<File>> {
    postcard::from_bytes(bytes)
}

/// The protocol these bytes were packed from.
///
/// # Errors
/// Where the bytes are not those of [`pack`], or more follows them.
pub fn unpack(bytes: &[u8]) -> postcard::Result<Protocol> {
    let (protocol, rest) = postcard::take_from_bytes(bytes)?;
    if rest.is_empty() { Ok(protocol) } else { Err(postcard::Error::DeserializeBadEncoding) }
}
