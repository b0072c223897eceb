/** A strict reader of XML, for as much of it as test reports need: it throws where a document is not well formed. */

export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
}

const FORBIDDEN = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u;
const ENTITY = /&(?:(lt|gt|amp|quot|apos)|#(\d+)|#x([0-9a-fA-F]+));|&/g;
const NAMED: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

function unescaped(text: string): string {
  if (text.includes('<')) throw new Error(`a < in ${text}`);
  return text.replace(ENTITY, (all, name, decimal, hex) => {
    if (all === '&') throw new Error(`a bare & in ${text}`);
    if (name) return NAMED[name];
    const char = String.fromCodePoint(decimal ? Number(decimal) : Number.parseInt(hex, 16));
    if (FORBIDDEN.test(char)) throw new Error(`the character ${all} can't stand in XML`);
    return char;
  });
}

function attributesOf(text: string): Record<string, string> {
  const found: Record<string, string> = {};
  const rest = text.replace(/\s+([\w:-]+)="([^"]*)"/g, (_, name: string, value: string) => {
    if (name in found) throw new Error(`${name} stands twice`);
    found[name] = unescaped(value);
    return '';
  });
  if (rest.trim() !== '') throw new Error(`what is ${rest}?`);
  return found;
}

/** The root element of a document. */
export function readXml(document: string): Element {
  if (FORBIDDEN.test(document)) throw new Error('a character that XML has no place for');
  const body = document.replace(/^<\?xml version="1\.0" encoding="UTF-8"\?>\n/, '');
  if (body === document) throw new Error('no declaration');
  const top: Element = { name: '', attributes: {}, children: [], text: '' };
  const open = [top];
  const piece = /<!\[CDATA\[([\s\S]*?)\]\]>|<\/([\w:-]+)\s*>|<([\w:-]+)((?:\s+[\w:-]+="[^"]*")*)\s*(\/?)>|([^<]+)|</g;
  for (const [all, data, close, name, attributes, ends, text] of body.matchAll(piece)) {
    const inner = open[open.length - 1];
    if (data !== undefined) inner.text += data;
    else if (close !== undefined) {
      if (open.pop()?.name !== close) throw new Error(`</${close}> closes nothing`);
    } else if (name !== undefined) {
      const element: Element = { name, attributes: attributesOf(attributes), children: [], text: '' };
      inner.children.push(element);
      if (!ends) open.push(element);
    } else if (text !== undefined) {
      if (text.includes(']]>')) throw new Error('a ]]> in text');
      inner.text += unescaped(text);
    } else throw new Error(`what is ${all}?`);
  }
  if (open.length !== 1 || top.children.length !== 1 || top.text.trim() !== '') throw new Error('not one root element');
  return top.children[0];
}
