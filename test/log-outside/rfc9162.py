"""RFC 9162, section 2.1: Merkle trees and inclusion proofs, with SHA-256."""
import hashlib


def sha256(*parts):
    return hashlib.sha256(b"".join(parts)).digest()


def root_of(leaves):
    """MTH of RFC 9162, section 2.1.1, over leaf hashes."""
    if len(leaves) <= 1:
        return leaves[0] if leaves else sha256()
    k = 1 << (len(leaves) - 1).bit_length() - 1
    return sha256(b"\x01", root_of(leaves[:k]), root_of(leaves[k:]))


def included(leaf, index, size, path, root):
    """RFC 9162, section 2.1.3.2."""
    if index >= size:
        return False
    fn, sn, r = index, size - 1, leaf
    for p in path:
        if sn == 0:
            return False
        if fn & 1 or fn == sn:
            r = sha256(b"\x01", p, r)
            while not fn & 1 and fn:
                fn, sn = fn >> 1, sn >> 1
        else:
            r = sha256(b"\x01", r, p)
        fn, sn = fn >> 1, sn >> 1
    return sn == 0 and r == root
