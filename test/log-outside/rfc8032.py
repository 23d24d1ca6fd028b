"""RFC 8032, sections 5.1 and 6: Ed25519, checked strictly."""
import hashlib

P, L = 2**255 - 19, 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, P - 2, P) % P


def add(a, b):
    x, y = (a[1] - a[0]) * (b[1] - b[0]) % P, (a[1] + a[0]) * (b[1] + b[0]) % P
    z, t = 2 * a[3] * b[3] * D % P, 2 * a[2] * b[2] % P
    e, f, g, h = y - x, t - z, t + z, y + x
    return (e * f, g * h, f * g, e * h)


def times(n, point):
    result = (0, 1, 1, 0)
    while n:
        result = add(result, point) if n & 1 else result
        point, n = add(point, point), n >> 1
    return result


def same(a, b):
    return (a[0] * b[2] - b[0] * a[2]) % P == 0 and (a[1] * b[2] - b[1] * a[2]) % P == 0


def point(raw):
    y, sign = int.from_bytes(raw, "little") & (2**255 - 1), raw[31] >> 7
    if y >= P:
        raise ValueError("improper encoding")
    square = (y * y - 1) * pow(D * y * y + 1, P - 2, P) % P
    x = pow(square, (P + 3) // 8, P)
    x = x if (x * x - square) % P == 0 else x * pow(2, (P - 1) // 4, P) % P
    if (x * x - square) % P != 0 or (x == 0 and sign):
        raise ValueError("no point")
    return (x if x & 1 == sign else P - x, y, 1, (x if x & 1 == sign else P - x) * y % P)


BASE = point((4 * pow(5, P - 2, P) % P).to_bytes(32, "little"))


def signed(public, message, signature):
    if len(signature) != 64:
        return False
    try:
        s, a, r = int.from_bytes(signature[32:], "little"), point(public), point(signature[:32])
    except ValueError:
        return False
    if s >= L or same(times(8, a), (0, 1, 1, 0)):
        return False
    h = int.from_bytes(hashlib.sha512(signature[:32] + public + message).digest(), "little") % L
    return same(times(s, BASE), add(r, times(h, a)))


def proper(public):
    """Raises where the bytes are no public key that may be used: another encoding, or a point of small order."""
    if len(public) != 32 or same(times(8, point(public)), (0, 1, 1, 0)):
        raise ValueError("not a public key to be trusted")
