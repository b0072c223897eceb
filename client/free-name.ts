/** A name that nothing has yet: the wished one, or with a number behind it. */
export function freeName(wished: string, ending: string, isTaken: (name: string) => boolean): string {
  let name = `${wished}${ending}`;
  for (let number = 2; isTaken(name); number++) name = `${wished}-${number}${ending}`;
  return name;
}
