"""A verifier of logs, written from docs/log-format.md alone, with nothing but Python's standard library.

    python3 verify.py ARCHIVE [--key LINE]... [--against CHECKPOINT|PROOF|SIZE:ROOT [--dated DATE]]...

ARCHIVE is a tar or a directory. Says what is wrong, then the verdict; exits with the code that the page gives it.
"""
import base64, json, sys, tarfile, time

from c2sp import key, signers, note, unbase64
from files import HOUR, evidence, instant, unpacked
from rfc8785 import canonical, parsed
from rfc9162 import included, root_of, sha256

SKEW = 300
faults, documents_missing = [], []


def fault(text):
    faults.append(text)


def seals_in(value, pointer):
    if isinstance(value, dict):
        if list(value) == ["sealed"] and isinstance(value["sealed"], str):
            yield pointer, value["sealed"]
        for name, each in value.items():
            yield from seals_in(each, "%s/%s" % (pointer, name.replace("~", "~0").replace("/", "~1")))
    elif isinstance(value, list):
        for place, each in enumerate(value):
            yield from seals_in(each, "%s/%d" % (pointer, place))


def main(arguments):
    path, given, kept = None, [], []
    while arguments:
        first = arguments.pop(0)
        if first == "--key":
            given.append(key(arguments.pop(0)))
        elif first == "--against":
            kept.append([arguments.pop(0), None])
        elif first == "--dated":
            kept[-1][1] = arguments.pop(0)
        else:
            path = first
    files = unpacked(path)
    manifest = json.loads(files.get("manifest.json", b"{}"))
    partial = manifest.get("partial") is True

    leaves, times_, values, handovers, named, seals, origin = [], [], [], [], {}, {}, None
    own = []
    for name in ["checkpoint"] + sorted(name for name in files if name.startswith("checkpoints/")):
        try:
            own.append({**note(files[name]), "outside": False, "seen": None})
        except (ValueError, AttributeError, KeyError, UnicodeDecodeError) as why:
            fault("%s: %s" % (name, why))
    origin = own[0]["origin"] if own else None

    lines = files.get("entries.ndjson", b"").split(b"\n")
    if lines.pop() != b"":
        fault("the last entry has no line feed")
    before = None
    for place, raw in enumerate(lines):
        leaves.append(sha256(b"\x00", raw))
        try:
            value = parsed(raw)
            facts = {name: value[name] for name in ("operationId", "seq", "recordedAt", "occurredAt", "type", "id")}
            recorded = instant(facts["recordedAt"])
        except (ValueError, KeyError, TypeError, ZeroDivisionError, RecursionError) as why:
            fault("entry %d: %s" % (place, why))
            times_.append(None)
            continue
        times_.append((facts["seq"], recorded))
        if facts["seq"] != place and not partial:
            fault("entry %d says %s" % (place, facts["seq"]))
        origin = origin or "furrowmark/" + facts["operationId"]
        if "furrowmark/" + facts["operationId"] != origin:
            fault("entry %d is of another log" % place)
        if before is not None and recorded < before or recorded > time.time() + SKEW:
            fault("entry %d: its time of recording cannot be" % place)
        before = recorded
        data, about = value.get("data"), facts["type"]
        if about in ("key.replaced", "log.restored", "import.made") and isinstance(data, dict) and "key" in data:
            handovers.append((int(facts["seq"]), data["key"]))
        for pointer, seal in seals_in(value, ""):
            seals[(facts["id"], pointer)] = seal
        while about != "document.attached" and isinstance(data, dict) and "type" in data and "data" in data:
            data, about = data["data"], data["type"]
        if about == "document.attached" and isinstance(data, dict) and isinstance(data.get("sha256"), str):
            named[(data["sha256"], data.get("byteLength"))] = place

    stored = files.get("leaf-hashes")
    stored = None if stored is None else [stored[i : i + 32] for i in range(0, len(stored), 32)]
    whole = (stored or []) if partial else leaves
    judged = own + [evidence(what, dated) for what, dated in kept]

    # Step 1: whose signatures count. A key that a trusted one handed over to counts where that one signed above it.
    trusted = list(given)
    for seq, line in handovers:
        try:
            following = key(line)
        except (ValueError, AttributeError):
            continue
        for each in judged:
            if "text" in each and seq < each["size"] <= len(whole) and root_of(whole[: each["size"]]) == each["root"]:
                if each["origin"] == origin and any(s["type"] == 1 for s in signers(each, trusted)):
                    trusted.append(following)
                    break
    logs = [each for each in given if each["type"] == 1 and each["name"].startswith("furrowmark/")]
    if logs and origin not in [each["name"] for each in logs]:
        fault("the log is %s, but the keys are another's" % origin)
    presented = []
    for line in [files.get("key", b"").decode("utf-8", "replace")] + [line for _, line in handovers]:
        try:
            presented.append(key(line))
        except (ValueError, AttributeError):
            pass
    counting = []
    for each in judged:
        each["by"] = []
        try:
            if "text" in each and each["origin"] != origin:
                raise ValueError("a checkpoint of another log")
            each["by"] = signers(each, trusted) if "text" in each else []
            pinned = any(one["name"] == origin for one in trusted)
            if "text" in each and not each["by"] and not pinned:
                each["by"] = signers(each, presented)
            if "text" in each and not each["by"] and (pinned or not each["outside"]):
                raise ValueError("a checkpoint without a signature that counts")
            counting.append(each)
            brought = [one["line"] for one in trusted]
            witnesses = [one for one in each["by"] if one["line"] in brought and one["name"] != origin]
            each["outside"] = each["outside"] or witnesses != []
            moments = [one["time"] for one in witnesses if one["type"] == 4]
            each["seen"] = (min(moments), min(moments)) if moments else each["seen"]
        except ValueError as why:
            if each["outside"] and "another log" not in str(why):
                print("does not count: %s" % why)
            else:
                fault(str(why))

    # Steps 2 to 4.
    size = max([each["size"] for each in own], default=len(whole))
    agreeing, roots = [], {}
    for each in counting:
        if each["size"] > len(whole):
            fault("a checkpoint covers %d entries, but %d are here" % (each["size"], len(whole)))
        elif root_of(whole[: each["size"]]) != each["root"]:
            fault("the first %d entries do not have the root of a checkpoint" % each["size"])
        else:
            agreeing.append(each)
        if any(s["type"] == 1 for s in each["by"]) and roots.setdefault(each["size"], each["root"]) != each["root"]:
            fault("two checkpoints of size %d: the log was shown in two versions" % each["size"])
    if len(whole) > size:
        fault("more entries than the checkpoint covers")
    if partial:
        for leaf, facts in zip(leaves, times_):
            if facts and (facts[0] >= size or whole[int(facts[0])] != leaf):
                fault("entry %s is not the one that was signed" % facts[0])
        if not agreeing:
            fault("a part without leaf hashes that lead to a checkpoint")
    elif stored is not None and stored != leaves:
        fault("the leaf hashes stored beside the log are not those of its entries")

    # Steps 5 and 6.
    for each in counting:
        if each.get("proof") and each["proof"][0] < len(whole):
            index, hashes = each["proof"]
            if not included(whole[index], index, each["size"], hashes, each["root"]):
                fault("entry %d is not the one of the proof that was kept" % index)
    for each in agreeing:
        for facts in times_ if each["outside"] and each["seen"] else []:
            if facts and facts[0] < each["size"] and facts[1] > each["seen"][1] + SKEW:
                fault("entry %s was recorded after it was seen" % facts[0])
            if facts and facts[0] >= each["size"] and facts[1] < each["seen"][0] - 24 * HOUR:
                fault("entry %s was recorded before a checkpoint that lacks it" % facts[0])

    # Step 7.
    for line in files.get("openings.ndjson", b"").split(b"\n")[:-1]:
        try:
            opening = json.loads(line, parse_int=float)
            salt = unbase64(opening["salt"])
            seal = base64.b64encode(sha256(salt, canonical(opening["value"]).encode())).decode()
            if len(salt) != 32 or seals.get((opening["recordId"], opening["path"])) != seal:
                raise ValueError("another value than was sealed")
        except (ValueError, KeyError, TypeError) as why:
            fault("an opening: %s" % why)
    held = {name[10:]: raw for name, raw in files.items() if name.startswith("documents/")}
    for (digest, length), place in named.items():
        if digest not in held and not partial:
            documents_missing.append("the document named by entry %d is missing" % place)
        elif digest in held and (sha256(held[digest]).hex() != digest or len(held[digest]) != length):
            fault("the document named by entry %d was altered" % place)
    for digest in held:
        if digest not in [name for name, _ in named]:
            fault("a document that no entry names")

    print("\n".join(faults + documents_missing))
    witnesses = [each["size"] for each in agreeing if each["outside"] and each["size"] > 0]
    if faults:
        print("altered")
        return 1
    print("genuine up to size %d" % max(witnesses) if witnesses else "self-consistent, but not witnessed")
    return 4 if documents_missing else 0 if witnesses else 3


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except (ValueError, OSError, AttributeError, tarfile.TarError) as why:
        print("not readable: %s" % why)
        sys.exit(2)
