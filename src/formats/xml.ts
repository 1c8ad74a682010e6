/** Text that goes into XML: SVG pictures and 3MF packages. */

/**
 * Escapes text for XML content and attributes. Control characters, which XML 1.0 has no way to
 * write, and lone surrogates become U+FFFD.
 *
 * @example escapeXml('a < "b" & c') // 'a &lt; &quot;b&quot; &amp; c'
 * Source: XML 1.0 (fifth edition), 2.2 and 2.4.
 */
export function escapeXml(text: string): string {
  let out = '';
  for (const letter of text) out += escapeLetter(letter);
  return out;
}

function escapeLetter(letter: string): string {
  switch (letter) {
    case '&':
      return '&amp;';
    case '<':
      return '&lt;';
    case '>':
      return '&gt;';
    case '"':
      return '&quot;';
    case "'":
      return '&apos;';
    default: {
      const code = letter.codePointAt(0) ?? 0;
      const isControl = code < 0x20 && code !== 0x9 && code !== 0xa && code !== 0xd;
      const isBroken = (code >= 0xd800 && code <= 0xdfff) || code === 0xfffe || code === 0xffff;
      return isControl || isBroken ? '\ufffd' : letter;
    }
  }
}
