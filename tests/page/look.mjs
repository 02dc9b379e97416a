// Looks at sheets in a browser, as they are printed:
//
//   node look.mjs chromium|firefox PATH-OF-BROWSER LIST
//
// LIST has a line for each: PATH-OF-HTML A4|Letter MORE, the pages it may have beyond one for each sheet that it names (any: any number). For
// each: it asks for nothing, holds no script, is nowhere wider than its paper, no word of a picture is cut off, a sheet of a bench is one
// sheet of paper (where pages are counted), "1 of 3" is true, and sizes are those for arm's length. Each is a line "ok" or "FAIL ...".
// It is driven over WebDriver BiDi in Firefox, over its own protocol in Chromium; two tabs, one for each of two cores.
import { readFileSync, writeFileSync } from 'node:fs';
import { execFileSync } from 'node:child_process';
import { createRequire } from 'node:module';
const puppeteer = createRequire(process.env.LEMEL_NODE_MODULES + '/')('puppeteer-core');

const [, , kind, path, list] = process.argv;
const papers = { A4: { wide: 210 - 2 * 8, high: 297 - 2 * 8 }, Letter: { wide: 215.9 - 2 * 8, high: 279.4 - 2 * 7 } };
const px = 96 / 25.4;
const root = process.getuid && process.getuid() === 0;
const browser = await puppeteer.launch({ browser: kind === 'firefox' ? 'firefox' : 'chrome', executablePath: path, headless: true,
  args: kind === 'firefox' ? [] : ['--disable-gpu', '--host-resolver-rules=MAP * ~NOTFOUND', ...(root ? ['--no-sandbox'] : [])] });

// In the page: what is wrong with it, a text each. Sizes in points, of what is read at arm's length.
const faults = (wide, high, whole) => {
  const bad = [], mm = (length) => (length * 25.4) / 96;
  if (document.querySelector('script, img, link, iframe, object, embed, form, base')) bad.push('an element that no sheet has');
  for (const e of document.querySelectorAll('*')) for (const a of e.attributes)
    if (/^on/i.test(a.name) || (/^(src|href|xlink:href|action)$/i.test(a.name))) bad.push(`an attribute that no sheet has: ${a.name}`);
  const edge = document.body.getBoundingClientRect().left + wide;
  for (const e of document.querySelectorAll('body *')) {
    if (e.closest('svg') && e.tagName !== 'svg') continue;
    const r = e.getBoundingClientRect();
    if (r.width > 0 && r.right > edge + 1.5) bad.push(`beyond the paper by ${mm(r.right - edge).toFixed(1)} mm: ${e.tagName} ${e.className.baseVal ?? e.className} "${e.textContent.slice(0, 40)}"`);
  }
  for (const column of document.querySelectorAll('.pair > div')) {
    const end = column.getBoundingClientRect().right;
    for (const e of column.querySelectorAll('*')) {
      if (e.closest('svg') && e.tagName !== 'svg') continue;
      const r = e.getBoundingClientRect();
      if (r.width > 0 && r.right > end + 2) { bad.push(`beyond its column by ${mm(r.right - end).toFixed(1)} mm: ${e.tagName} ${e.className.baseVal ?? e.className} "${e.textContent.slice(0, 40)}"`); break; }
    }
  }
  for (const e of document.querySelectorAll('.row .lab, .tile .lab, .stack .lab'))
    if (e.clientWidth > 0 && e.scrollWidth > e.clientWidth + 1) bad.push(`runs into what is beside it: "${e.textContent}"`);
  for (const e of document.querySelectorAll('.box b, .box u')) {
    const r = e.getBoundingClientRect(), box = e.parentElement.getBoundingClientRect();
    if (r.width > 0 && (r.right > box.right + 1 || r.left < box.left - 1)) bad.push(`does not fit its box: "${e.textContent}"`);
  }
  for (const t of document.querySelectorAll('svg text')) {
    const s = t.closest('svg').getBoundingClientRect(), r = t.getBoundingClientRect();
    if (r.left < s.left - 1 || r.right > s.right + 1) bad.push(`cut off in a picture: "${t.textContent}"`);
  }
  for (const s of document.querySelectorAll('.sheet.bench, .sheet.piece')) {
    const tall = mm(s.getBoundingClientRect().height);
    if (whole && tall > high) bad.push(`a sheet of ${tall.toFixed(0)} mm on ${high.toFixed(0)} mm of paper`);
  }
  const least = { '.ladder td.add b': 14, '.row.weigh .fig': 14, '.row.set .fig': 14, '.clock .t': 11, '.hands .t b': 11, '.tile .want': 10.5, '.seg .fig': 14, '.caution b': 9.4 };
  for (const [what, points] of Object.entries(least)) for (const e of document.querySelectorAll('.bench ' + what)) {
    const size = parseFloat(getComputedStyle(e).fontSize) * 0.75;
    if (size < points - 0.05) { bad.push(`${what} is ${size} pt, and ${points} are needed`); break; }
  }
  for (const s of document.querySelectorAll('svg')) {
    const tall = mm(s.getBoundingClientRect().height);
    if (tall > high - 30) bad.push(`a picture of ${tall.toFixed(0)} mm on ${high.toFixed(0)} mm of paper`);
  }
  const pages = new Set([...document.querySelectorAll('.sheet')].map((s) => s.className.replace(/ d\d$/, '')));
  const of = pages.size === 1 && /(\d+) of (\d+)/.exec(document.querySelector('.which small b')?.textContent ?? '');
  if (of) document.documentElement.dataset.sheets = of[2];
  for (const b of document.querySelectorAll('.bench .box')) {
    if (mm(b.getBoundingClientRect().height) < 6.95) { bad.push(`a box of ${mm(b.getBoundingClientRect().height).toFixed(1)} mm: ${b.textContent}`); break; }
  }
  return [[...new Set(bad)], pages.size];
};

async function look(page, asked, file, paper, more) {
  const url = 'file://' + file, size = papers[paper], name = `${kind}: ${file.split('/').pop()}`;
  asked.length = 0;
  await page.setViewport({ width: Math.round(size.wide * px), height: 1200, deviceScaleFactor: 1 });
  await page.goto(url);
  if (kind === 'firefox') await page.addStyleTag({ content: '@media screen { .sheet { padding-top: 0 !important; padding-bottom: 0 !important; padding-left: 0; padding-right: 0 } .paper { padding: 5mm 7mm 0 !important } }' });   // as on paper: it has no print media here
  const counted = more !== 'any', [bad, sheets] = await page.evaluate(faults, size.wide * px, size.high, counted);
  const others = asked.filter((asks) => asks !== url);
  if (others.length > 0) bad.push(`it asks for ${others[0]}`);
  const pdf = file.replace(/html$/, kind + '.pdf');
  writeFileSync(pdf, await page.pdf({ preferCSSPageSize: true, printBackground: true }));
  const about = execFileSync('pdfinfo', [pdf], { encoding: 'utf8' });
  const pages = Number(/^Pages:\s*(\d+)/m.exec(about)[1]), [, w, h] = /^Page size:\s*([\d.]+) x ([\d.]+)/m.exec(about);
  const due = paper === 'A4' ? [595, 842] : [612, 792];
  if (Math.abs(w - due[0]) > 2 || Math.abs(h - due[1]) > 2) bad.push(`printed on ${w} by ${h} points`);
  const said = await page.evaluate(() => document.documentElement.dataset.sheets);
  if (said && pages !== Number(said)) bad.push(`${pages} pages, and it says that they are ${said}`);
  if (counted && pages !== sheets + Number(more)) bad.push(`${pages} pages of ${sheets} sheets, and ${more} more are due`);
  if (bad.length === 0) console.log(`ok ${name} ${pages} pages`);
  for (const fault of bad) console.log(`FAIL ${name}: ${fault}`);
}

const lines = readFileSync(list, 'utf8').split('\n').filter((line) => line);
async function work() {
  const page = await browser.newPage(), asked = [];
  page.on('request', (r) => asked.push(r.url()));
  if (kind !== 'firefox') await page.emulateMediaType('print');
  for (let line; (line = lines.shift());) await look(page, asked, ...line.split(' '));
}
await Promise.all([work(), work()]);
await browser.close();
