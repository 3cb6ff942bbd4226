// Files are written whole or not at all: the text goes to a new file beside the place, is brought to the disk, and then
// takes the place in one step. Without leave to overwrite that step is a link, which fails where a file stands, so that
// nothing that came into being in between is lost. What is not a file (a pipe, a device) is written into as it is.

import {
  closeSync,
  fchmodSync,
  fstatSync,
  fsyncSync,
  linkSync,
  openSync,
  realpathSync,
  renameSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import type { WriteFault } from './host.ts';

function codeOf(error: unknown): string {
  return typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : String(error);
}

function faultOf(error: unknown): WriteFault {
  const code = codeOf(error);
  switch (code) {
    case 'EEXIST':
      return { kind: 'exists' };
    case 'ENOENT':
    case 'ENOTDIR':
      return { kind: 'no-folder' };
    case 'EISDIR':
      return { kind: 'is-folder' };
    case 'EACCES':
    case 'EPERM':
      return { kind: 'no-permission' };
    case 'ENOSPC':
    case 'EDQUOT':
      return { kind: 'disk-full' };
    case 'EROFS':
      return { kind: 'read-only' };
    case 'ENAMETOOLONG':
      return { kind: 'name-too-long' };
    default:
      return { kind: 'other', reason: code };
  }
}

/** What stands at a place. */
export function whatStandsAt(file: string): 'nothing' | 'file' | 'folder' | 'other' {
  try {
    const found = statSync(file);
    return found.isDirectory() ? 'folder' : found.isFile() ? 'file' : 'other';
  } catch {
    return 'nothing';
  }
}

/** Writes all of it, flushed; the file must not be there. */
function writeNew(file: string, text: string, mode: number | null): void {
  const handle = openSync(file, 'wx', 0o666);
  try {
    if (mode !== null) fchmodSync(handle, mode);
    writeFileSync(handle, text);
    // A folder on a network may have nothing to flush.
    if (fstatSync(handle).isFile()) fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

function remove(file: string): void {
  try {
    unlinkSync(file);
  } catch {
    // It is not there, or cannot be removed: the first trouble is the one to tell.
  }
}

/** Takes the place, only if it is free. */
function takeFreePlace(draft: string, file: string): void {
  try {
    linkSync(draft, file);
  } catch (error) {
    const code = codeOf(error);
    if (code === 'EEXIST' || code === 'ENOSPC' || code === 'EACCES') throw error;
    // Some file systems have no links: then the place is looked at, and taken.
    if (whatStandsAt(file) !== 'nothing') throw Object.assign(new Error('exists'), { code: 'EEXIST' });
    renameSync(draft, file);
    return;
  }
  unlinkSync(draft);
}

/** Writes a file; null when that went well. Nothing is left behind when it did not. */
export function writeWhole(file: string, text: string, overwrite: boolean): WriteFault | null {
  const before = whatStandsAt(file);
  if (before === 'folder') return { kind: 'is-folder' };
  if (before === 'file' && !overwrite) return { kind: 'exists' };
  let draft: string | null = null;
  try {
    if (before === 'other') {
      writeFileSync(file, text);
      return null;
    }
    // A link stays a link: what it points to is replaced.
    const place = before === 'file' ? realpathSync(file) : file;
    draft = path.join(path.dirname(place), `.${path.basename(place).slice(0, 100)}.${process.pid}.part`);
    remove(draft);
    writeNew(draft, text, before === 'file' ? statSync(place).mode & 0o777 : null);
    if (overwrite) renameSync(draft, place);
    else takeFreePlace(draft, place);
    return null;
  } catch (error) {
    if (draft !== null) remove(draft);
    return faultOf(error);
  }
}
