/** The brief's JSON Schema as the form reads it. */

export interface Node {
  readonly type?: string;
  readonly description?: string;
  readonly default?: unknown;
  readonly const?: unknown;
  readonly enum?: readonly (string | number)[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly items?: Node;
  readonly prefixItems?: readonly Node[];
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly properties?: Readonly<Record<string, Node>>;
  readonly required?: readonly string[];
  readonly oneOf?: readonly Node[];
  readonly anyOf?: readonly Node[];
}

export type Path = readonly (string | number)[];

/** A place as messages write it: `air.supply.curve[2].pressure_Pa`. */
export function pathText(path: Path): string {
  let text = '';
  for (const step of path) {
    if (typeof step === 'number') text += `[${step}]`;
    else text += text === '' ? step : `.${step}`;
  }
  return text;
}

/** 'printSpeed_mm_per_s' as 'Print speed [mm/s]'. */
export function labelOf(key: string): string {
  const [name, ...rest] = key.split('_');
  const words = name.replaceAll(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
  const unit = rest.join('_').replaceAll('_per_', '/').replace(/^per_/, '1/').replaceAll('_', ' ');
  const shown = unit
    .replace(/^C$/, '\u00b0C')
    .replace('um', '\u00b5m')
    .replace('mm3', 'mm\u00b3')
    .replace('m3', 'm\u00b3');
  return words.charAt(0).toUpperCase() + words.slice(1) + (shown === '' ? '' : ` [${shown}]`);
}

/** Branches of a union; a node without is its own only branch. */
export function branchesOf(node: Node): readonly Node[] {
  return node.oneOf ?? node.anyOf ?? [node];
}

/** The kind of a branch, or null for one that is told from its kin by its type. */
export function kindOf(branch: Node): string | null {
  const kind = branch.properties?.['kind']?.const;
  return typeof kind === 'string' ? kind : null;
}

/** What a branch without a kind is called in a choice. */
export function branchLabel(branch: Node): string {
  if (branch.type === 'object') return 'a range';
  if (branch.type === 'array') return 'a direction by its parts';
  return branch.enum === undefined ? 'one value' : 'one of the usual ones';
}

/** The branch that a value belongs to, by its `kind`, else by its type; -1 for none. */
export function branchFor(node: Node, value: unknown): number {
  return branchesOf(node).findIndex((branch) => {
    const kind = kindOf(branch);
    if (kind !== null) return isRecord(value) && value['kind'] === kind;
    if (branch.type === 'object') return isRecord(value);
    return (branch.type === 'array') === Array.isArray(value) && !isRecord(value);
  });
}

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
