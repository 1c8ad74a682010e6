/** `anfract calibrate DESIGN | RUN [ID] --readings CSV`: what a printed coupon teaches. */
import type { Command } from 'commander';
import { InputError, fault, isRecord } from '../brief/index.ts';
import { CALIBRATE_DEFAULTS, calibrate, checkBrief } from '../engine/index.ts';
import type { Brief, Calibrated } from '../engine/index.ts';
import { readCurveCsv, readJson, writeJson } from '../formats/index.ts';
import { DISK, writeWhole } from '../store/index.ts';
import { calibrationPage } from './calibration-page.ts';
import { readText } from './files.ts';
import { terminalOf, within, withManners } from './options.ts';
import { findTarget } from './targets.ts';

interface Options {
  readonly readings: string;
  readonly source?: string;
  readonly noise: number;
  readonly noisePa: number;
  readonly temperature?: number;
  readonly altitude?: number;
  readonly into?: string;
}

export function addCalibrate(program: Command): void {
  withManners(program.command('calibrate'))
    .argument('<coupon>', 'the coupon as printed: a design file, or a run folder')
    .argument('[id]', 'design of the run; `knee` (when left out) stands for the marked one')
    .requiredOption('--readings <file>', 'CSV with columns such as flow_m3_per_h,pressure_Pa')
    .option('--source <text>', 'what was measured, for later runs to cite; the file when left out')
    .option(
      '--noise <percent>',
      'scatter of a reading in percent',
      within(0.1, 100),
      100 * CALIBRATE_DEFAULTS.noiseShare,
    )
    .option('--noise-pa <Pa>', 'and in pascals', within(0.001, 1000), CALIBRATE_DEFAULTS.noise_Pa)
    .option('--temperature <C>', "air at the bench; the brief's when left out", within(-40, 200))
    .option('--altitude <m>', "height of the bench; the brief's when left out", within(-400, 9000))
    .option('--into <brief>', 'write the calibration into this brief')
    .description('Fit the loss factors to flow and pressure measured on a printed coupon.')
    .addHelpText(
      'after',
      '\nExample:\n  anfract calibrate coupon.design.json --readings bench.csv --source "coupon 3, bench A" --into plate.json',
    )
    .action(async (path: string, id: string | undefined, options: Options, command: Command) => {
      const terminal = terminalOf(command);
      const { file } = await findTarget(path, id, terminal);
      const readings = readCurveCsv(await readText(options.readings), options.readings);
      const calibrated = calibrate(atBench(file.brief, options), file.design, readings, {
        source: options.source ?? options.readings,
        noiseShare: options.noise / 100,
        noise_Pa: options.noisePa,
      });
      terminal.result(
        terminal.json
          ? JSON.stringify(calibrated, null, 2)
          : calibrationPage(file.name, calibrated, terminal),
      );
      if (options.into === undefined) return;
      refuseMisfit(calibrated);
      await writeInto(options.into, calibrated);
      terminal.remark(`Written into ${options.into}.`);
    });
}

/** The coupon's brief in the air of the bench, checked again. */
function atBench(brief: Brief, { temperature, altitude }: Options): Brief {
  if (temperature === undefined && altitude === undefined) return brief;
  const { air } = brief;
  return checkBrief(
    {
      ...brief,
      air: {
        ...air,
        temperature_C: temperature ?? air.temperature_C,
        altitude_m: altitude ?? air.altitude_m,
      },
    },
    'calibrate',
  );
}

/** Residuals of so many times the stated scatter are no scatter. */
const MISFIT = 5;

/** @throws InputError for a fit that ran into a bound or misses the readings: no later run should use it. */
function refuseMisfit({ calibration, parts, noiseFactor }: Calibrated): void {
  const stuck = parts.filter(({ atBound }) => atBound);
  if (stuck.length === 0 && noiseFactor <= MISFIT) return;
  const remedy =
    'Nothing was written. Measure the printed bores, check flow, air and units of the readings, and that the coupon is this design.';
  const faults = stuck.map(({ part }) =>
    fault(`factor of ${part}`, String(calibration[part].value), 'stay inside its bounds', remedy),
  );
  if (stuck.length === 0) {
    const found = `${noiseFactor.toFixed(1)} times the stated scatter`;
    faults.push(fault('misfit of the readings', found, `be at most ${MISFIT} times`, remedy));
  }
  throw new InputError(faults, 'calibrate');
}

/** Puts the calibration into a brief as its author wrote it, comments included. */
async function writeInto(path: string, { calibration }: Calibrated): Promise<void> {
  const written = readJson(await readText(path), path, { strict: true });
  checkBrief(written, path);
  if (!isRecord(written)) {
    throw new InputError([fault('', 'no object', 'be a brief', 'Is it the right file?')], path);
  }
  const changed = { ...written, calibration };
  checkBrief(changed, path);
  writeWhole(DISK, path, writeJson(changed));
}
