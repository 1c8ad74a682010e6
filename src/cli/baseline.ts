/** `anfract baseline BRIEF | RUN`: what one would have drawn, on the same measures. */
import { statSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import type { Command } from 'commander';
import { checkBrief, compareWithBaseline, plainBrief, sweepBaseline } from '../engine/index.ts';
import type { Baseline, Brief, Front } from '../engine/index.ts';
import { readJson, writeDesignFile } from '../formats/index.ts';
import { DISK, makeFolder, openRun, writeWhole } from '../store/index.ts';
import { createNodeCrew } from '../../workers/crew.node.ts';
import { baselineData, baselinePage } from './baseline-page.ts';
import { readText } from './files.ts';
import { terminalOf, whole, withManners } from './options.ts';
import { readRunFront } from './run-front.ts';
import type { Terminal } from './terminal.ts';
import { WORKER_ENTRY } from './worker-entry.ts';

interface Options {
  readonly out?: string;
  readonly workers: number;
}

export function addBaseline(program: Command): void {
  withManners(program.command('baseline'))
    .argument('<source>', 'a brief, or a run folder to compare its front with')
    .option('--out <folder>', 'also write each plate as a design file into this folder')
    .option('--workers <n>', 'worker threads', whole(1, 256), availableParallelism())
    .description('The best straight-hole, slot and tilted-slot plates of a small sweep.')
    .addHelpText(
      'after',
      '\nExamples:\n  anfract baseline plate.json\n  anfract baseline runs/a --out drawn',
    )
    .action(async (source: string, options: Options, command: Command) => {
      const terminal = terminalOf(command);
      const { brief, front } = await openSource(source, terminal);
      const crew = createNodeCrew(plainBrief(brief), {
        size: options.workers,
        entry: WORKER_ENTRY,
      });
      let baseline: Baseline;
      try {
        terminal.progress('Sweeping plain plates ...');
        baseline = await sweepBaseline(brief, crew);
      } finally {
        await crew.close();
      }
      const comparison = front === null ? null : compareWithBaseline(front, baseline);
      terminal.result(
        terminal.json
          ? baselineData(baseline, comparison)
          : baselinePage(brief.name, baseline, comparison, terminal),
      );
      if (options.out === undefined) return;
      makeFolder(DISK, options.out);
      for (const { family, plates } of baseline.families) {
        for (const { id, design } of plates) {
          const text = writeDesignFile({
            name: `${brief.name}, ${family} ${id}`,
            brief,
            design,
            genes: null,
          });
          writeWhole(DISK, `${options.out}/${id}.design.json`, text);
        }
      }
      terminal.remark(`Design files are in ${options.out}.`);
    });
}

async function openSource(
  source: string,
  terminal: Terminal,
): Promise<{ brief: Brief; front: Front | null }> {
  if (statSync(source, { throwIfNoEntry: false })?.isDirectory() === true) {
    const front = readRunFront(openRun(source), terminal);
    return { brief: front.brief, front };
  }
  const written = readJson(await readText(source), source, { strict: true });
  return { brief: checkBrief(written, source), front: null };
}
