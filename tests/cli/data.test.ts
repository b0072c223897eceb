import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { readTable, tableOf } from '../../server/cli/data.js';
import { folderOf } from './program.js';

describe('a table of numbers', () => {
  it('is parted by commas, with comments, blank lines, quotation marks and any line ends', () => {
    const text = '\ufeff# Trays sold\r\n"width", height\r\n\r\n 3.2 ,"1.75"\n# none on Tuesday\n4,-0.5\r\n';
    expect(tableOf(text, 'trays.csv')).toEqual({
      columns: ['width', 'height'],
      rows: [
        ['3.2', '1.75'],
        ['4', '-0.5'],
      ],
    });
  });

  it('is parted by semicolons, and then a comma is the decimal point', () => {
    expect(tableOf('größe;b-2\n3,5;12.25\n', 'a.csv')).toEqual({ columns: ['größe', 'b-2'], rows: [['3.5', '12.25']] });
  });

  it('is read from a file', () => {
    const cwd = folderOf({ 'a.csv': 'x\n1\n2\n' });
    expect(readTable(path.join(cwd, 'a.csv'))).toEqual({ columns: ['x'], rows: [['1'], ['2']] });
    expect(() => readTable(path.join(cwd, 'b.csv'))).toThrow('b.csv is not there.');
  });

  it.each([
    ['', 'a.csv has no row of numbers below a row of names.'],
    ['x,y\n', 'a.csv has no row of numbers below a row of names.'],
    ['x,y\n1,2\n\n3\n', 'a.csv, line 4: there are 1 cells, and 2 columns have a name.'],
    ['x,y\n1,two\n', 'a.csv, line 2, column y: “two” is no number here. Write it as in 12.5.'],
    ['x,y\n1,\n', 'a.csv, line 2, column y: nothing stands here. Write it as in 12.5.'],
    ['x,y\n1,1e5\n', 'a.csv, line 2, column y: “1e5” is no number here. Write it as in 12.5.'],
    ['x,2\n1,2\n', "a.csv: “2” can't be the name of column 2."],
    ['x,turn\n1,2\n', "a.csv: “turn” can't be the name of column 2."],
    ['x,y + 1\n1,2\n', "a.csv: “y + 1” can't be the name of column 2."],
    ['x,\n1,2\n', "a.csv: Nothing can't be the name of column 2."],
    ['x,x\n1,2\n', 'a.csv: two columns are called x.'],
  ])('names what is wrong in %j', (text, message) => {
    expect(() => tableOf(text, 'a.csv')).toThrow(message);
  });
});
