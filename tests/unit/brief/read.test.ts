/** The door of the brief: defaults, comments, and faults of single values. */
import { describe, expect, it } from 'vitest';
import { briefJsonSchema, briefTemplate, readBrief } from '../../../src/brief/index.ts';
import { aBrief, briefInput, briefWith, faultsWith } from '../../support/briefs.ts';
import { isObject, schemaFaults } from '../../support/json-schema.ts';

const messages = (changes: Readonly<Record<string, unknown>>): string[] =>
  faultsWith(changes).map((fault) => fault.message);

describe('readBrief()', () => {
  it('fills in every default of the least brief and freezes the result', () => {
    const brief = aBrief();
    expect(brief.plate.rim_mm).toBe(3);
    expect(brief.goals.objectives).toEqual(['pressureDrop_Pa', 'dustCapture', 'partCost']);
    expect(Object.isFrozen(brief)).toBe(true);
    expect(Object.isFrozen(brief.goals.objectives)).toBe(true);
  });

  it('reads its own result to the same brief', () => {
    const brief = aBrief();
    expect(readBrief(brief)).toEqual({ ok: true, brief });
  });

  it('does not change what it was given', () => {
    const given = briefWith({ 'plate.// why': 'note' });
    const before = JSON.stringify(given);
    readBrief(given);
    expect(JSON.stringify(given)).toBe(before);
  });

  it('ignores keys that begin with // at every depth', () => {
    const noted = briefWith({ '//': 'a', 'plate.// rim': 'b', 'plate.outline.//': ['c'] });
    expect(readBrief(noted)).toEqual({ ok: true, brief: aBrief() });
  });

  it('names the place, the value, both bounds and a remedy', () => {
    expect(messages({ 'plate.thickness_mm': 0.2 })).toEqual([
      'plate.thickness_mm is 0.2; it must lie between 0.8 and 60. ' +
        'Give the plate thickness along the air stream in mm.',
    ]);
  });

  it('reports faults of values, unknown keys and contradictions at once', () => {
    const found = faultsWith({
      'plate.thickness_mm': 0.2,
      'plate.colour': 'red',
      'air.supply': { kind: 'flow', flow_m3_per_h: 0 },
      'goals.objectives': ['mass_g', 'mass_g'],
      'dust.classes': [{ diameter_um: 10, massShare: 0.5 }],
    });
    expect(found.map((fault) => fault.path).toSorted()).toEqual([
      'air.supply.flow_m3_per_h',
      'dust.classes',
      'goals.objectives[1]',
      'plate.colour',
      'plate.thickness_mm',
    ]);
  });

  it('does not judge a contradiction by a value that is itself at fault', () => {
    expect(messages({ 'plate.rim_mm': -1, 'routes.bore_mm': { min: 90, max: 95 } })).toHaveLength(
      1,
    );
  });

  it.each([
    ['plate.thickness', 'thickness_mm'],
    ['plate.thikcness_mm', 'thickness_mm'],
    ['plate.thickness_cm', 'thickness_mm'],
    ['plate.rim', 'rim_mm'],
    ['plate.Rim_mm', 'rim_mm'],
    ['rim_mm', 'plate.rim_mm'],
    ['serach', 'search'],
    ['air.temperature_F', 'temperature_C'],
    ['process.lineWdith_mm', 'lineWidth_mm'],
    ['search.poplation', 'population'],
  ])('suggests the valid name for the unknown key %s', (path, meant) => {
    const found = faultsWith({ [path]: 5 });
    expect(found).toHaveLength(1);
    expect(found[0].path).toBe(path);
    expect(found[0].remedy).toBe(`Did you mean ${meant}?`);
  });

  it('does not report a needed key as missing beside its misspelling', () => {
    const found = faultsWith({ 'plate.thickness_mm': undefined, 'plate.thickness': 10 });
    expect(found.map((fault) => fault.path)).toEqual(['plate.thickness']);
  });

  it('suggests nothing for a key that resembles none', () => {
    expect(faultsWith({ 'plate.wxyzwxyz': 1 })[0].remedy).toMatch(/^Remove it/u);
  });

  it.each([NaN, Infinity, -Infinity])('refuses %s wherever a number stands', (bad) => {
    const paths = ['plate.rim_mm', 'air.temperature_C', 'safety.bladeDistance_mm'];
    for (const path of paths) {
      const [found] = faultsWith({ [path]: bad });
      expect(found.path).toBe(path);
      expect(found.message).toContain(` is ${String(bad)};`);
    }
  });

  it('says what kinds there are when the kind is missing or unknown', () => {
    const allowed = "be one of 'round', 'rectangle' and 'polygon'";
    for (const outline of [{ diameter_mm: 80 }, { kind: 'oval' }]) {
      const [found] = faultsWith({ 'plate.outline': outline });
      expect(found).toMatchObject({ path: 'plate.outline.kind', allowed });
    }
  });

  it.each([undefined, null, 5, 'text', [], true])('refuses %s instead of a brief', (value) => {
    expect(readBrief(value).ok).toBe(false);
  });

  it('says which program a newer brief needs, and nothing else', () => {
    const found = faultsWith({ version: 7, 'plate.new_mm': 1 });
    expect(found.map((fault) => fault.message)).toEqual([
      'version is 7; it must be at most 1. The file was written by a newer anfract: ' +
        'use one that reads anfract-brief version 7.',
    ]);
  });

  it('refuses data nested without end instead of failing', () => {
    const circle: Record<string, unknown> = { ...briefInput() };
    circle['plate'] = circle;
    const read = readBrief(circle);
    expect(read).toMatchObject({
      ok: false,
      faults: [{ found: expect.stringMatching(/64 levels/u) }],
    });
  });

  it('lists a hundred faults and counts the others', () => {
    const keys = Object.fromEntries(Array.from({ length: 5000 }, (_, i) => [`key${i}`, 0]));
    const read = readBrief({ ...briefInput(), ...keys });
    if (read.ok) throw new Error('it was read');
    expect(read.faults.length).toBe(101);
    expect(read.faults[100].message).toContain('wrong in 4900 more places');
  });

  it('keeps a key named __proto__ from doing anything but being unknown', () => {
    const given: unknown = JSON.parse(
      JSON.stringify(briefInput()).replace('{', '{"__proto__":{"name":"x"},'),
    );
    const read = readBrief(given);
    expect(read.ok ? [] : read.faults.map((fault) => fault.path)).toEqual(['__proto__']);
  });

  it('checks measure ids when it is told them, with the nearest one', () => {
    const read = readBrief(briefWith({ 'goals.objectives': ['presureDrop_Pa'] }), {
      measures: ['pressureDrop_Pa', 'mass_g'],
    });
    expect(read.ok ? [] : read.faults.map((fault) => fault.message)).toEqual([
      "goals.objectives[0] is 'presureDrop_Pa'; it must be the id of a measure. " +
        'Did you mean pressureDrop_Pa?',
    ]);
  });
});

interface Leaf {
  readonly path: string;
  readonly min: number;
  readonly max: number;
}

/** Every number with two bounds in a JSON Schema, reached through objects only. */
function boundedLeaves(node: unknown, path: string): Leaf[] {
  if (!isObject(node)) return [];
  const { minimum, maximum, properties } = node;
  if (typeof minimum === 'number' && typeof maximum === 'number') {
    return [{ path, min: minimum, max: maximum }];
  }
  if (!isObject(properties)) return [];
  return Object.entries(properties).flatMap(([key, child]) =>
    boundedLeaves(child, path === '' ? key : `${path}.${key}`),
  );
}

describe('messages of single numbers', () => {
  const leaves = boundedLeaves(briefJsonSchema(), '');

  it('are checked for every bounded number of the schema', () => {
    expect(leaves.length).toBeGreaterThan(30);
  });

  it.each(leaves)('$path: the numbers read are the ones checked', ({ path, min, max }) => {
    for (const bad of [min - 1, max + 1]) {
      const found = faultsWith({ [path]: bad }).find((fault) => fault.path === path);
      expect(found?.message).toMatch(/^\S+ is \S+; it must (lie|be a whole number) between /u);
      expect(
        found?.message
          .match(/(?<= )-?\d+(\.\d+)?(?=[; .])/gu)
          ?.map(Number)
          .slice(0, 3),
      ).toEqual([bad, min, max]);
      for (const good of [min, max]) {
        const faults = faultsWith({ [path]: good });
        expect(
          faults.filter((fault) => fault.path === path && fault.allowed.includes(' between ')),
        ).toEqual([]);
      }
    }
  });
});

describe('briefTemplate()', () => {
  it('is a valid brief as it stands', () => {
    const read = readBrief(JSON.parse(briefTemplate()));
    expect(read.ok ? [] : read.faults).toEqual([]);
  });

  it('shows every section and says that its example is invented', () => {
    const template: Record<string, unknown> = JSON.parse(briefTemplate());
    const sections = Object.keys(template).filter((key) => !key.startsWith('//'));
    expect(sections).toEqual(Object.keys(aBrief()));
    expect(briefTemplate()).toContain('INVENTED');
  });

  it('names every key a person may write', () => {
    const schema: unknown = JSON.parse(
      JSON.stringify(briefJsonSchema(), (key, value: unknown) =>
        ['calibration', 'correction'].includes(key) ? undefined : value,
      ),
    );
    const names = keysOf(schema);
    expect(names.length).toBeGreaterThan(60);
    expect(names.filter((name) => !briefTemplate().includes(name))).toEqual([]);
  });

  it('suggests sections in its comments that a brief may have', () => {
    const template: Record<string, unknown> = JSON.parse(briefTemplate());
    for (const section of ['heat', 'sound', 'light', 'strength']) {
      const comment = String(template[`// ${section}`]);
      const from = comment.indexOf(`"${section}": {`) + section.length + 4;
      const suggested: unknown = JSON.parse(wholeObject(comment.slice(from)));
      const read = readBrief({ ...template, [section]: suggested });
      expect(read.ok ? [] : read.faults, section).toEqual([]);
    }
  });
});

/** Names of all properties in a JSON Schema. */
function keysOf(schema: unknown): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  return Object.entries(schema).flatMap(([key, value]) => [
    ...(key === 'properties' ? Object.keys(value as object) : []),
    ...keysOf(value),
  ]);
}

/** A text up to the brace that closes its first one. */
function wholeObject(text: string): string {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    if (text[i] === '{') depth++;
    if (text[i] === '}' && --depth === 0) return text.slice(0, i + 1);
  }
  return text;
}

const named = (id: string): unknown =>
  briefWith({ 'goals.objectives': [id], 'goals.limits': [{ measure: id, atMost: 1 }] });

describe('briefJsonSchema()', () => {
  it('accepts the template with its comments', () => {
    expect(schemaFaults(briefJsonSchema(), JSON.parse(briefTemplate()))).toEqual([]);
  });

  it.each([
    ['plate.thickness_mm', 0.2],
    ['plate.colour', 'red'],
    ['plate.outline', { kind: 'oval' }],
    ['air.supply', { kind: 'flow', flow_m3_per_h: 0 }],
    ['search.population', 10.5],
  ])('refuses the same wrong %s as the reader', (path, value) => {
    expect(schemaFaults(briefJsonSchema(), briefWith({ [path]: value }))).not.toEqual([]);
    expect(faultsWith({ [path]: value })).not.toEqual([]);
  });

  it('offers the measure ids it is given, and only them', () => {
    const schema = briefJsonSchema(['mass_g']);
    expect(schemaFaults(schema, named('mass_g'))).toEqual([]);
    expect(schemaFaults(schema, named('massg'))).toHaveLength(2);
  });

  it('describes every value', () => {
    const bare: string[] = [];
    const walk = (node: unknown, path: string): void => {
      if (typeof node !== 'object' || node === null) return;
      const part = isObject(node) ? node : {};
      const scalar = part['type'] === 'number' || part['type'] === 'integer';
      if (scalar && part['description'] === undefined) bare.push(path);
      for (const [key, child] of Object.entries(node)) walk(child, `${path}/${key}`);
    };
    walk(briefJsonSchema(), '');
    expect(bare).toEqual([]);
  });
});
