/** What the choices of the brief are called on the page; the file keeps its short words. */
import { measureInfos } from '../state/measure-infos.ts';

/** By the key they stand at and the value: kinds of unions and options of choices. */
const WORDS: Readonly<Record<string, string>> = {
  'outline.round': 'round',
  'outline.rectangle': 'rectangular',
  'outline.polygon': 'any, by its corners',
  'mounting.none': 'none',
  'mounting.frame': 'those of a square axial-fan frame',
  'mounting.holes': 'at places of my own',
  'build.flat': 'flat, inlet face on the bed',
  'build.edge': 'standing on its edge, -y down',
  'build.any': 'either; the search decides',
  'route.through': 'straight through: in at one face, out at the other',
  'route.side': 'sideways: one face closed, openings in the rim',
  'direction.outward': 'in at the inlet face, out through the rim',
  'direction.inward': 'in through the rim, out at the outlet face',
  'merge.none': 'every channel has its own opening',
  'merge.plenum': 'all channels meet in one ring-shaped cavity',
  'merge.any': 'either; the search decides',
  'supply.flow': 'a given flow',
  'supply.fan': 'a fan, by its curve',
  'reach.fromAge14': 'people from 14 years on',
  'reach.fromAge3': 'children from 3 years on',
  'down.alongAir': 'the way the air goes: the plate lies, air blows down',
  'down.againstAir': 'against the air: the plate lies, air rises',
  'down.minusY': '-y: the plate stands upright',
  'hotFace.inlet': 'inlet face',
  'hotFace.outlet': 'outlet face',
  'source.load': 'the heat that it makes',
  'source.face': 'its temperature',
  'support.simple': 'resting on a frame',
  'support.clamped': 'clamped all round',
  'ribs.none': 'none',
  'ribs.auto': 'where a slot needs them',
  'motifs.alike': 'all alike',
  'motifs.mirrored': 'neighbours mirrored',
  'motifs.turned': 'neighbours turned by quarters',
  'motifs.stepped': 'neighbours stepped in depth',
  'motifs.free': 'each group on its own',
};

/** An option in words: a measure by its label and unit, a choice by what it means. */
export function optionWords(key: string, option: string | number): string {
  const info = measureInfos.value.get(String(option));
  if (info !== undefined) {
    const unit = info.unit.replaceAll(/\bmm3\b/gu, 'mm\u00b3').replaceAll(/\bm3\b/gu, 'm\u00b3');
    return unit === '-' ? info.label : `${info.label} [${unit}]`;
  }
  return WORDS[`${key}.${option}`] ?? String(option);
}
