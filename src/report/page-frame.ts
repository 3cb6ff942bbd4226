// A page around its content: one file that needs nothing else. Its policy names the digests of its own style and script;
// a browser runs these and nothing else, and loads nothing.

import { PAGE_STYLE } from './page-style.ts';
import { sha256 } from './sha256.ts';
import { escaped } from './svg-text.ts';

/**
 * The whole page.
 *
 * @param body lines of HTML.
 * @param script what the page runs, null for nothing.
 */
export function framedPage(title: string, body: readonly string[], script: string | null): string {
  const scripts = script === null ? '' : ` script-src 'sha256-${sha256(script)}';`;
  const policy = `default-src 'none'; style-src 'sha256-${sha256(PAGE_STYLE)}';${scripts} base-uri 'none'; form-action 'none'`;
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="referrer" content="no-referrer">',
    `<title>${escaped(title)}</title>`,
    `<style>${PAGE_STYLE}</style>`,
    '</head>',
    '<body>',
    ...body,
    ...(script === null ? [] : [`<script>${script}</script>`]),
    '</body>',
    '</html>',
    '',
  ].join('\n');
}
