/** Computed flows of a run that somebody sent: shown beside the part they belong to, quietly. */
import { describe, expect, it } from 'vitest';
import { designOf, plateDigest } from '../../../src/engine/index.ts';
import { writeFrontFile, writeRunZip, writeVerifyFile } from '../../../src/formats/index.ts';
import { aComputedFlow } from '../../support/computed-flows.ts';
import { evolvedFront } from '../../support/evolved-front.ts';
import { drop, goTo, pageTests, reason, skipped } from '../../support/page.ts';

describe.skipIf(skipped)(`computed flows in the part view${reason}`, () => {
  const { visit } = pageTests();

  it('stand in a table of their own', async () => {
    const front = await evolvedFront({ generations: 3, seed: 'one' });
    const [first] = front.designs;
    const flow = aComputedFlow({
      design: first.id,
      digest: plateDigest(front.brief, designOf(front, first)),
      estimate_Pa: 123.4,
    });
    const bytes = writeRunZip('one', {
      'front.json': writeFrontFile(front),
      'verify.json': writeVerifyFile('0.1.0', [flow]),
    });
    const { page, faults } = await visit({ hash: '#/compare' });
    await drop(page, [{ name: 'one.zip', content: Buffer.from(bytes) }]);
    await page.getByRole('cell', { name: 'one' }).or(page.getByText('one')).first().waitFor();
    await goTo(page, 'Part');
    const region = page.getByRole('region', { name: `Computed flows of ${first.id}` });
    await region.waitFor();
    expect(await region.textContent()).toContain('123.4');
    await page.getByText('An invented verdict.').waitFor();
    expect(faults).toEqual([]);
  });
});
