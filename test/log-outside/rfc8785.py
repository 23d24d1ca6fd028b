"""RFC 8785: canonical JSON."""
import json


def number(value):
    """As ECMAScript writes numbers: the shortest digits that give the same double, which are Python's as well."""
    value = float(value)
    if value in (float("inf"), float("-inf")):
        raise ValueError("no number of JSON")
    if value == 0:
        return "0"
    digits, _, exponent = repr(abs(value)).partition("e")
    whole, _, part = digits.partition(".")
    digits, point = whole + part, len(whole) + int(exponent or 0)
    point -= len(digits) - len(digits.lstrip("0"))
    digits = digits.strip("0")
    sign, n = "-" if value < 0 else "", len(digits)
    if n <= point <= 21:
        return sign + digits + "0" * (point - n)
    if 0 < point <= 21:
        return sign + digits[:point] + "." + digits[point:]
    if -6 < point <= 0:
        return sign + "0." + "0" * -point + digits
    return sign + digits[0] + ("." + digits[1:] if n > 1 else "") + "e%+d" % (point - 1)


def canonical(value, depth=0):
    if depth > 256:
        raise ValueError("nested too deep")
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, (int, float)):
        return number(value)
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, list):
        return "[" + ",".join(canonical(each, depth + 1) for each in value) + "]"
    members = sorted(value.items(), key=lambda member: member[0].encode("utf-16-be", "surrogatepass"))
    return "{" + ",".join(canonical(k) + ":" + canonical(v, depth + 1) for k, v in members) + "}"


def parsed(raw):
    """The value of canonical bytes; raises where they are not."""
    value = json.loads(raw.decode("utf-8"), parse_constant=lambda word: 1 / 0, parse_int=float)
    if canonical(value).encode("utf-8") != raw:
        raise ValueError("not canonical")
    return value
