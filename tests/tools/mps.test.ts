import { describe, expect, it } from 'vitest';
import { LinearModelBuilder } from '../../src/release/linear-model';
import { mpsText } from '../../src/tools/mps';

describe('a model as a file for other solvers', () => {
  it('minimises, marks whole columns, and gives rows with two limits a range', () => {
    const builder = new LinearModelBuilder();
    const [one, other] = [builder.column(5, 0, 1, true), builder.column(-2, 0, 7.5)];
    builder.entry(one, 3);
    builder.entry(other, -1);
    builder.row(0, 0);
    builder.entry(one, 1);
    builder.row(Number.NEGATIVE_INFINITY, 1);
    builder.entry(other, 1);
    builder.row(2, 6);
    builder.entry(other, 4);
    builder.row(1, Number.POSITIVE_INFINITY);
    expect(mpsText(builder.build()).split('\n')).toEqual([
      'NAME SEASON FREE',
      'ROWS',
      ' N COST',
      ' E R0',
      ' L R1',
      ' L R2',
      ' G R3',
      'COLUMNS',
      " MARK0 'MARKER' 'INTORG'",
      ' C0 COST -5',
      ' C0 R0 3',
      ' C0 R1 1',
      " MARK1 'MARKER' 'INTEND'",
      ' C1 COST 2',
      ' C1 R0 -1',
      ' C1 R2 1',
      ' C1 R3 4',
      'RHS',
      ' RHS R0 0',
      ' RHS R1 1',
      ' RHS R2 6',
      ' RHS R3 1',
      'RANGES',
      ' RNG R2 4',
      'BOUNDS',
      ' LO BND C0 0',
      ' UP BND C0 1',
      ' LO BND C1 0',
      ' UP BND C1 7.5',
      'ENDATA',
      '',
    ]);
  });
});
