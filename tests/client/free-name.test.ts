import { expect, it } from 'vitest';
import { freeName } from '../../client/free-name.js';

it('a name that is taken gets a number, the first that is free', () => {
  const taken = new Set(['bed-area.crank', 'bed-area-2.crank', 'bed-area-4.crank']);
  const free = (wished: string) => freeName(wished, '.crank', (name) => taken.has(name));
  expect(free('bed-area')).toBe('bed-area-3.crank');
  expect(free('pots')).toBe('pots.crank');
});
