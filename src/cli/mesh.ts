/** `anfract mesh RUN --design ID... | DESIGN.json`: print-ready STL and 3MF. */
import { dirname, join } from 'node:path';
import type { Command } from 'commander';
import { Option } from 'commander';
import { RunError } from '../brief/index.ts';
import { figure } from '../formats/index.ts';
import { DISK, makeFolder, writeWhole } from '../store/index.ts';
import { FORMS, meshTarget } from './mesh-files.ts';
import type { MeshForm } from './mesh-files.ts';
import { even, terminalOf, withManners } from './options.ts';
import { findTargets } from './targets.ts';

interface Options {
  readonly design?: string[];
  readonly form: MeshForm | 'both';
  readonly out?: string;
  readonly sides: number;
}

export function addMesh(program: Command): void {
  withManners(program.command('mesh'))
    .argument('<source>', 'a run folder or a design file')
    .option(
      '--design <id...>',
      'designs of the run; `knee` (when left out) and `best` stand for the marked ones',
    )
    .addOption(
      new Option('--form <form>', 'file form').choices(['stl', '3mf', 'both']).default('both'),
    )
    .option('--out <folder>', 'where to write; the run folder, or beside the design file')
    .option('--sides <n>', 'sides of a round bore, even', even(8, 128), 24)
    .description('Write watertight meshes, each checked before it is written.')
    .addHelpText(
      'after',
      '\nExamples:\n  anfract mesh runs/a --design d001 d007\n  anfract mesh plate.design.json --form stl --out prints',
    )
    .action(async (source: string, options: Options, command: Command) => {
      const terminal = terminalOf(command);
      const { run, targets } = await findTargets(source, options.design ?? [], terminal);
      const forms = options.form === 'both' ? FORMS : [options.form];
      if (options.out !== undefined) makeFolder(DISK, options.out);
      const wrong: string[] = [];
      for (const target of targets) {
        const { files, report } = await meshTarget(target, forms, options.sides);
        const paths = files.map(({ name, bytes }) => {
          if (options.out === undefined && run !== null) return run.put('meshes', name, bytes);
          const path = join(options.out ?? dirname(source), name);
          writeWhole(DISK, path, bytes);
          return path;
        });
        terminal.result(
          terminal.json
            ? JSON.stringify({ design: target.name, files: paths, report })
            : paths.join('\n'),
        );
        terminal.remark(
          `${target.name}: ${report.triangleCount} triangles, genus ${report.genus} (expected ${report.expectedGenus}), ` +
            `${figure(report.volume_mm3)} mm3 (integrated ${figure(report.expectedVolume_mm3)})`,
        );
        wrong.push(...report.faults.map((fault) => `${target.name}: ${fault.message}`));
      }
      if (wrong.length > 0) {
        const remedy =
          'The files were written; look at the design with `anfract measure` before printing.';
        throw new RunError('mesh-faults', source, wrong.join('; '), remedy);
      }
    });
}
