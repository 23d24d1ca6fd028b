import { describe, expect, it } from '@jest/globals';
import { hashOf, isRight, pinWeakness, weakness } from './passwords.ts';

/**
 * "password" salted with "somesalt", as test.c of the Argon2 reference implementation gives it for argon2id, version 19,
 * t = 2, m = 65536, p = 1 (the digest's hexadecimal digits from memory: 09316115d5cf24ed…913cf7).
 */
const published = '$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc';

describe('a kept password', () => {
  it('is checked as the reference implementation of Argon2 does', async () => {
    expect(await isRight('password', published)).toBe(true);
    expect(await isRight('differentpassword', published)).toBe(false);
  });

  it('is salted: the same password is never kept as the same text', async () => {
    const [one, two] = [await hashOf('nettle harrow tuesday'), await hashOf('nettle harrow tuesday')];
    expect(one).not.toBe(two);
    expect(await isRight('nettle harrow tuesday', one)).toBe(true);
  });

  it('that there is none of is never right, whatever is tried', async () => {
    expect(await isRight('nobody has this password', null)).toBe(false);
    expect(await isRight('', null)).toBe(false);
  });
});

describe('a new password', () => {
  it.each(['nettle harrow tuesday bucket', '四つの言葉を並べた長い合言葉です', 'k3-Zp.9wQe!u7RtY2'])(
    '%s will do',
    async (text) => {
      expect(await weakness(text, ['orla', 'Orla Vennick'])).toBeNull();
    },
  );

  it.each([
    ['123456789012345', /easy to guess/],
    ['abcabcabcabcabcabc', /easy to guess/],
    ['qwertyuiop[]asdf', /easy to guess/],
    ['fourteen chars', /15 characters/],
  ])('%s will not', async (text, words) => {
    expect(await weakness(text, [])).toMatch(words);
  });

  it('made of nothing but the name and the sign-in name will not', async () => {
    expect(await weakness('orla.vennick@quillfen', [])).toBeNull();
    expect(await weakness('orla.vennick@quillfen', ['orla.vennick@quillfen', 'Orla Vennick'])).toMatch(/easy/);
  });
});

describe('a PIN', () => {
  it.each(['4831', '2468', '1122', '90210', '73028415'])('%s will do', (pin) => expect(pinWeakness(pin)).toBeNull());
  it.each(['1234', '4321', '7777', '012', '123456789', '12a4', '', '１２３５'])('"%s" will not', (pin) =>
    expect(pinWeakness(pin)).toEqual(expect.any(String)),
  );
});
