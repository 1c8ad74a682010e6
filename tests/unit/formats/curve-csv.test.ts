import { describe, expect, it } from 'vitest';
import { InputError } from '../../../src/brief/index.ts';
import { readCurveCsv } from '../../../src/formats/index.ts';

describe('readCurveCsv()', () => {
  it('reads flow and pressure in the units of the header, whatever the order', () => {
    const text = '\ufeff# bench 3\nname,pressure_mmH2O,flow_L_per_s\na,1,10\nb,0.5,20\n';
    expect(readCurveCsv(text, 'curve')).toEqual([
      { flow_m3_per_h: 36, pressure_Pa: 9.80665 },
      { flow_m3_per_h: 72, pressure_Pa: 9.80665 / 2 },
    ]);
  });

  it('converts cubic feet and inches of water as the handbooks do', () => {
    // 1 ft3/min = 1.69901 m3/h and 1 inH2O = 249.089 Pa (NIST SP 811, appendix B).
    const [point] = readCurveCsv('flow_cfm,pressure_inH2O\n1,1', 'curve');
    expect(point.flow_m3_per_h).toBeCloseTo(1.69901, 5);
    expect(point.pressure_Pa).toBeCloseTo(249.089, 3);
  });

  it('takes decimal commas where semicolons part the columns', () => {
    const [point] = readCurveCsv('flow_m3_per_h;pressure_Pa\r\n"7,5";12,25\r\n', 'curve');
    expect(point).toEqual({ flow_m3_per_h: 7.5, pressure_Pa: 12.25 });
  });

  it('names every line that is no pair of numbers', () => {
    const text = 'flow_m3_per_h,pressure_Pa\n1,x\n2,\n3,4';
    expect(() => readCurveCsv(text, 'curve')).toThrowError(/line 2.*"x".*line 3/s);
  });

  it('names the columns it could read when there is none, with the nearest name', () => {
    const text = 'flow_m3_per_hour,pressure_Pa\n1,2';
    expect(() => readCurveCsv(text, 'curve')).toThrowError(InputError);
    expect(() => readCurveCsv(text, 'curve')).toThrowError(/Did you mean flow_m3_per_h\?/);
  });
});
