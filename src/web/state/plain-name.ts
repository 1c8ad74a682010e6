/** Names of files made of names of fronts. */

/** Plain name for files and folders, made of a front's name. */
export function plainName(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replaceAll(/[^\w.-]+/gu, '-')
    .replaceAll(/^[-.]+|[-.]+$/gu, '')
    .slice(0, 60);
  return plain === '' ? 'front' : plain;
}
