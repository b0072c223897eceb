/** What a preview shows while it waits for the server: fences are found again in a text that has changed. */
import { describe, expect, it } from 'vitest';
import { below, fencesOf } from '../../client/fences.js';

const told = ['use', 'pots', 'trays'].map((content) => ({ content, html: `<${content}>` }));

describe('what stands below fences', () => {
  it('is what was told of them', () => {
    expect(below(['use', 'pots', 'trays'], told)).toEqual(['<use>', '<pots>', '<trays>']);
    expect(below([], [])).toEqual([]);
  });

  it('stays below a fence that is being written in, until more is told', () => {
    expect(below(['use', 'pots and more', 'trays'], told)).toEqual(['<use>', '<pots>', '<trays>']);
  });

  it('moves with its fence when another comes or goes', () => {
    expect(below(['use', 'new', 'pots', 'trays'], told)).toEqual(['<use>', '', '<pots>', '<trays>']);
    expect(below(['new', 'use', 'pots', 'trays'], told)).toEqual(['', '<use>', '<pots>', '<trays>']);
    expect(below(['use', 'trays'], told)).toEqual(['<use>', '<trays>']);
    expect(below(['pots'], told)).toEqual(['<pots>']);
    expect(below(['trays', 'pots'], told)).toEqual(['<trays>', '<pots>']);
    expect(below([], told)).toEqual([]);
  });

  it('is nothing before anything is told', () => expect(below(['use', 'pots'], [])).toEqual(['', '']));

  it('keeps fences of the same text apart', () => {
    const twice = ['pots', 'trays', 'pots'].map((content, i) => ({ content, html: `<${i}>` }));
    expect(below(['pots', 'new', 'trays', 'pots'], twice)).toEqual(['<0>', '', '<1>', '<2>']);
  });
});

describe('an answer', () => {
  it('tells what is new, and of the rest where it stood', () => {
    const fences = [
      { content: 'new', html: '<new>' },
      { content: 'pots', same: 1 },
      { content: 'use', same: 0 },
    ];
    expect(fencesOf({ resultId: '2', fences }, told)).toEqual([
      { content: 'new', html: '<new>' },
      { content: 'pots', html: '<pots>' },
      { content: 'use', html: '<use>' },
    ]);
  });

  it('that names a place that there is not leaves it empty', () => {
    const fences = [{ content: 'pots', same: 7 }];
    expect(fencesOf({ resultId: '2', fences }, told)).toEqual([{ content: 'pots', html: '' }]);
  });
});
