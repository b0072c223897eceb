/** How the debug protocol names files: a path where they lie on a disk, else an address. */
import type { DebugProtocol } from '@vscode/debugprotocol';
import { URI } from 'vscode-uri';

/** An address has a scheme of two letters at least: one letter is a drive. */
const ADDRESS = /^[a-z][a-z0-9+.-]+:/i;

/** The address of what the protocol calls a path; undefined where it is neither address nor whole path. */
export function uriOfPath(path: string): string | undefined {
  if (ADDRESS.test(path)) return path;
  return path.startsWith('/') || /^[a-z]:[\\/]/i.test(path) ? URI.file(path).toString() : undefined;
}

function pathOfUri(address: string): string {
  const uri = URI.parse(address);
  return uri.scheme === 'file' ? uri.fsPath : address;
}

/** The last part of an address, for people. */
export const nameOfUri = (address: string): string => URI.parse(address).path.split('/').at(-1) ?? address;

/** A file as the protocol has it. */
export const sourceOf = (uri: string): DebugProtocol.Source => ({ name: nameOfUri(uri), path: pathOfUri(uri) });
