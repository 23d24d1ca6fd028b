"""What the reader has: the archive, and what was kept outside."""
import datetime, os, re, tarfile

from c2sp import note, unbase64

HOUR = 3600


def instant(text):
    if not re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)", text):
        raise ValueError("not RFC 3339")
    return datetime.datetime.fromisoformat(text).timestamp()


def unpacked(path):
    if os.path.isdir(path):
        names = [os.path.join(folder, name) for folder, _, names in os.walk(path) for name in names]
        return {os.path.relpath(name, path): open(name, "rb").read() for name in names if not os.path.islink(name)}
    files = {}
    for member in tarfile.open(path, "r:").getmembers():
        if not (member.isfile() or member.isdir()) or member.name in files:
            raise ValueError("%s comes twice or is no file" % member.name)
        if member.isfile():
            files[member.name] = tarfile.open(path, "r:").extractfile(member).read()
    return files


def evidence(what, dated):
    """What the reader kept: statement (or size and root), a proof, between which times it was seen."""
    seen = None
    if dated:
        at = instant(dated if "T" in dated else dated + "T00:00:00Z")
        seen = (at, at) if "T" in dated else (at - 14 * HOUR, at + 36 * HOUR)
    printed = re.fullmatch("(0|[1-9][0-9]*):([A-Za-z0-9+/]{43}=)", what)
    if printed:
        return {"size": int(printed[1]), "root": unbase64(printed[2]), "outside": True, "seen": seen}
    raw, proof = open(what, "rb").read(), None
    if raw.startswith(b"c2sp.org/tlog-proof@v1\n"):
        head, _, raw = raw.partition(b"\n\n")
        lines = [line for line in head.decode().split("\n")[1:] if not line.startswith("extra ")]
        proof = (int(lines[0].removeprefix("index ")), [unbase64(line) for line in lines[1:]])
    return {**note(raw), "outside": True, "seen": seen, "proof": proof}
