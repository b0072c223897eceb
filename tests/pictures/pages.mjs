// Turns a page of HTML into pictures, to be looked at: the printed pages, and the screen by light and by dark.
//
//   node tests/pictures/pages.mjs sheet.html [folder]
//
// writes sheet.pdf, sheet-1.png, sheet-2.png … and sheet-light.png, sheet-dark.png, sheet-narrow.png to the folder
// (tests/.out/sheets if none is named). Needs a Chromium: CHROMIUM says where it is, /usr/bin/chromium otherwise.
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** Nobody answers there but the routes below. */
const READER = 'http://pages.invalid';
const DOTS_TO_THE_PIXEL = 1.5;

const [file, folder = path.join(ROOT, 'tests/.out/sheets')] = process.argv.slice(2);
if (file === undefined) {
  console.error('Which page? node tests/pictures/pages.mjs sheet.html [folder]');
  process.exit(2);
}
mkdirSync(folder, { recursive: true });
const target = path.join(folder, path.basename(file, path.extname(file)));
const written = [];
const write = (name, bytes) => {
  writeFileSync(name, bytes);
  written.push(path.relative(process.cwd(), name));
};

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
});
try {
  const page = await browser.newPage({ viewport: { width: 900, height: 800 } });
  await page.goto(pathToFileURL(path.resolve(file)).href);
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ media: 'screen', colorScheme });
    write(`${target}-${colorScheme}.png`, await page.screenshot({ fullPage: true }));
  }
  await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
  await page.setViewportSize({ width: 390, height: 800 });
  write(`${target}-narrow.png`, await page.screenshot({ fullPage: true }));
  // Without backgrounds, as browsers print unless they are told otherwise.
  await page.emulateMedia({ media: null, colorScheme: 'dark' });
  const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: false, tagged: true });
  write(`${target}.pdf`, pdf);

  const reader = await browser.newPage();
  await reader.route(`${READER}/**`, (route) => {
    const name = new URL(route.request().url()).pathname;
    if (name === '/') return route.fulfill({ contentType: 'text/html', body: '<!DOCTYPE html><title>Pages</title>' });
    const body = readFileSync(path.join(ROOT, 'node_modules/pdfjs-dist/build', path.basename(name)));
    return route.fulfill({ contentType: 'text/javascript', body });
  });
  await reader.goto(READER);
  const pictures = await reader.evaluate(
    async ({ base64, scale, from }) => {
      const pdfjs = await import(`${from}/pdf.min.mjs`);
      pdfjs.GlobalWorkerOptions.workerSrc = `${from}/pdf.worker.min.mjs`;
      const data = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
      const document_ = await pdfjs.getDocument({ data }).promise;
      const found = [];
      for (let i = 1; i <= document_.numPages; i++) {
        const printed = await document_.getPage(i);
        const viewport = printed.getViewport({ scale });
        const canvas = Object.assign(document.createElement('canvas'), {
          width: Math.ceil(viewport.width),
          height: Math.ceil(viewport.height),
        });
        await printed.render({ canvas, viewport }).promise;
        found.push(canvas.toDataURL('image/png').split(',')[1]);
      }
      return found;
    },
    { base64: pdf.toString('base64'), scale: DOTS_TO_THE_PIXEL, from: READER },
  );
  pictures.forEach((picture, i) => {
    write(`${target}-${i + 1}.png`, Buffer.from(picture, 'base64'));
  });
} finally {
  await browser.close();
}
console.log(written.join('\n'));
