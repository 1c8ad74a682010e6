import { describe, expect, it } from 'vitest';
import { createGenome } from '../../../src/genome/index.ts';
import { designOf, openRunTexts, plateDigest } from '../../../src/engine/index.ts';
import type { Front } from '../../../src/engine/index.ts';
import { writeFrontFile, writeVerifyFile } from '../../../src/formats/index.ts';
import { aComputedFlow } from '../../support/computed-flows.ts';
import { aFront } from '../../support/fronts.ts';
import { smallBrief } from '../../support/small-brief.ts';

/** A front of two designs that decode. */
function decodable(): Front {
  const brief = smallBrief();
  const { genes, starts } = createGenome(brief);
  const front = aFront();
  const designs = front.designs
    .slice(0, 2)
    .map((design, i) => ({ ...design, genes: Array.from(starts[i].row) }));
  const listed = genes.map(({ name }) => ({ name, kind: 'real' as const, min: 0, max: 1 }));
  return { ...front, brief, genes: listed, designs };
}

describe('openRunTexts()', () => {
  const front = decodable();
  const [first, second] = front.designs;
  const mine = aComputedFlow({
    design: first.id,
    digest: plateDigest(front.brief, designOf(front, first)),
  });
  const open = (text: string) =>
    openRunTexts({ 'front.json': writeFrontFile(front), 'verify.json': text }, 'run');

  it('tells computed flows of plates that bear their ids still', () => {
    const stranger = aComputedFlow({ design: second.id });
    const { flows, remarks } = open(writeVerifyFile('0.1.0', [mine, stranger]));
    expect(remarks).toEqual([]);
    expect(flows.map(({ design }) => design)).toEqual([first.id]);
    expect(flows[0].rows).toEqual([
      ['median flow', '1.00', '330', '1.8', '1.5', '0.1', '20.0', 'by place'],
    ]);
    expect(flows[0].headings).toHaveLength(8);
  });

  it('opens the front without them when their file is half written', () => {
    const { flows, remarks } = open(writeVerifyFile('0.1.0', [mine]).split('"grids"')[0]);
    expect(flows).toEqual([]);
    expect(remarks).toEqual([expect.stringMatching(/verify\.json.*only half written/s)]);
    expect(openRunTexts({ 'front.json': writeFrontFile(front) }, 'run').flows).toEqual([]);
  });
});
