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

/** What a branch is called in a choice. */
export function branchLabel(branch: Node): string {
  const kind = branch.properties?.['kind']?.const;
  if (typeof kind === 'string') return kind;
  return branch.type === 'object' ? 'a range' : 'one value';
}

/** The branch that a value belongs to, by its `kind`, else by its type. */
export function branchFor(node: Node, value: unknown): number {
  const branches = branchesOf(node);
  const kind = isRecord(value) ? value['kind'] : undefined;
  const found = branches.findIndex((branch) =>
    kind === undefined
      ? (branch.type === 'object') === isRecord(value)
      : branch.properties?.['kind']?.const === kind,
  );
  return Math.max(0, found);
}

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A first value for a node: its default, its constant, or the least that is allowed. */
export function firstValue(node: Node): unknown {
  if (node.const !== undefined) return node.const;
  if (node.default !== undefined) return node.default;
  const branches = node.oneOf ?? node.anyOf;
  if (branches !== undefined) return firstValue(branches[0]);
  if (node.enum !== undefined) return node.enum[0];
  switch (node.type) {
    case 'object': {
      const required = node.required ?? [];
      return Object.fromEntries(
        Object.entries(node.properties ?? {})
          .filter(([key]) => required.includes(key))
          .map(([key, child]) => [key, firstValue(child)]),
      );
    }
    case 'array':
      if (node.prefixItems !== undefined) return node.prefixItems.map(firstValue);
      return Array.from({ length: node.minItems ?? 0 }, () => firstValue(node.items ?? {}));
    case 'number':
    case 'integer':
      return node.minimum ?? (node.exclusiveMinimum === undefined ? 0 : node.exclusiveMinimum + 1);
    case 'boolean':
      return false;
    default:
      return '';
  }
}
