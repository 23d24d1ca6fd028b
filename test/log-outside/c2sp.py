"""C2SP signed-note, tlog-checkpoint and tlog-cosignature (https://c2sp.org)."""
import base64, re

from rfc8032 import proper, signed
from rfc9162 import sha256


def unbase64(text):
    raw = base64.b64decode(text, validate=True)
    if base64.b64encode(raw).decode() != text:
        raise ValueError("base64 in another spelling")
    return raw


def key(line):
    name, key_id, encoded = re.fullmatch(r"([^+\s]+)\+([0-9a-f]{8})\+(\S+)", line.strip()).groups()
    raw = unbase64(encoded)
    if len(raw) != 33 or raw[0] not in (1, 4) or sha256(name.encode(), b"\n", raw)[:4].hex() != key_id:
        raise ValueError("not a verifier key")
    proper(raw[1:])
    return {"name": name, "id": key_id, "type": raw[0], "public": raw[1:], "line": line.strip()}


def note(raw):
    """Origin, size, root and signature lines of a signed checkpoint; raises where its form is wrong."""
    text = raw.decode("utf-8")
    if re.search("[\x00-\x09\x0b-\x1f]", text):
        raise ValueError("control characters")
    body, blank, lines = text.rpartition("\n\n")
    lines = lines.split("\n")
    if not blank or lines.pop() != "" or not 0 < len(lines) <= 100:
        raise ValueError("not a signed note")
    signatures = [re.fullmatch("— ([^+ ]+) ([A-Za-z0-9+/=]+)", line).groups() for line in lines]
    signatures = [(name, unbase64(encoded)) for name, encoded in signatures]
    origin, size, root = body.split("\n")
    if not re.fullmatch("0|[1-9][0-9]*", size) or len(unbase64(root)) != 32:
        raise ValueError("not a checkpoint")
    return {"text": body + "\n", "origin": origin, "size": int(size), "root": unbase64(root), "signatures": signatures}


def signers(checkpoint, keys):
    """The keys whose signature verifies. Raises where one of a known key fails."""
    found = []
    for name, raw in checkpoint["signatures"]:
        known = [each for each in keys if each["name"] == name and each["id"] == raw[:4].hex()]
        for each in known:
            message, signature, time = checkpoint["text"], raw[4:], None
            if each["type"] == 4:
                time, signature = int.from_bytes(signature[:8], "big"), signature[8:]
                message = "cosignature/v1\ntime %d\n%s" % (time, message)
            if signed(each["public"], message.encode(), signature):
                found.append({**each, "time": time})
                break
        else:
            if known:
                raise ValueError("a signature by %s fails" % name)
    return found
