// SPDX-License-Identifier: MIT
// Opens every page below the folder RANGECHECK_PAGES in a real browser: nothing leaves the file,
// nothing is logged, everything is reached by keyboard, nothing sticks out of a phone, axe-core
// (npm registry) finds no violation of WCAG 2.2 A and AA, and a page prints on two sheets at most.
import assert from 'node:assert/strict';
import {readFileSync, readdirSync} from 'node:fs';
import {createRequire} from 'node:module';
import {join} from 'node:path';
import {after, before, describe, test} from 'node:test';
import {pathToFileURL} from 'node:url';

import {chromium} from 'playwright-core';

const folder = process.env.RANGECHECK_PAGES;
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const pages = readdirSync(folder, {recursive: true}).filter(name => name.endsWith('.html')).sort();

const widths = {phone: 390, tablet: 820, desk: 1280};

let browser;
before(async () => {
  browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
      '--disable-background-networking', '--disable-component-update', '--disable-sync'
    ],
  });
});
after(() => browser.close());

/// The page at `name`, and what it asked for and said meanwhile.
async function open(name, options = {}) {
  const context =
      await browser.newContext({viewport: {width: widths.phone, height: 800}, ...options});
  const page = await context.newPage();
  const asked = [], said = [];
  page.on('request', request => asked.push(request.url()));
  page.on('console', message => said.push(message.text()));
  page.on('pageerror', error => said.push(String(error)));
  const address = pathToFileURL(join(folder, name)).href;
  await page.goto(address);
  return {page, context, asked, said, address};
}

/// What a person must be able to reach.
const interactive = 'a[href], button, input, select, textarea, summary, [tabindex="0"]';

test('there are pages to open', () => assert.ok(pages.length > 0, `no page below ${folder}`));

for (const name of pages) {
  describe(name, () => {
    test('is itself alone: no other request, nothing on the console', async () => {
      const {context, asked, said, address} = await open(name);
      assert.deepEqual(asked, [address]);
      assert.deepEqual(said, []);
      await context.close();
    });

    test('says all it says without script', async () => {
      const without = await open(name, {javaScriptEnabled: false});
      const text = await without.page.locator('body').innerText();
      assert.ok(text.length > 200, 'hardly any text');
      await without.context.close();
    });

    test('fits phone, tablet and desk without scrolling sideways', async () => {
      for (const [device, width] of Object.entries(widths)) {
        const {page, context} = await open(name, {viewport: {width, height: 800}});
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        assert.ok(wide <= width, `${device}: ${wide} px wide`);
        await context.close();
      }
    });

    test('has an overview of the swing that fits a phone, in letters that can be read', async () => {
      const {page, context} = await open(name);
      for (const table of await page.locator('.glance').all()) {
        const [needs, has, letters] = await table.evaluate(
            one => [one.scrollWidth, one.parentElement.clientWidth,
                    parseFloat(getComputedStyle(one).fontSize)]);
        assert.ok(needs <= has, `${needs} px in ${has} px`);
        assert.ok(letters >= 12, `${letters} px`);
      }
      await context.close();
    });

    test('has drawings with letters that can be read on a phone', async () => {
      const {page, context} = await open(name);
      const small = await page.locator('.course-picture').evaluateAll(
          all => all.map(one => 13 * one.getBoundingClientRect().width / one.viewBox.baseVal.width)
                    .filter(height => height < 12));
      assert.deepEqual(small, []);
      await context.close();
    });

    test('is reached by keyboard, everything of it, and shows where one is', async () => {
      const {page, context} = await open(name);
      const wanted = await page.locator(`:is(${interactive}):visible`).count();
      const seen = new Set();
      for (let i = 0; i < wanted + 5; ++i) {
        await page.keyboard.press('Tab');
        const at = await page.evaluate(() => {
          const element = document.activeElement;
          if (!element || element === document.body) return null;
          element.dataset.visited ??= String(document.querySelectorAll('[data-visited]').length);
          const style = getComputedStyle(element);
          return {
            id: element.dataset.visited,
            shown: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) > 0
          };
        });
        if (!at) continue;
        assert.ok(at.shown, 'focus does not show');
        seen.add(at.id);
      }
      assert.equal(seen.size, wanted);
      await context.close();
    });

    test('has no violation that axe-core finds, light and dark', async () => {
      for (const colorScheme of ['light', 'dark']) {
        const {page, context} = await open(name, {colorScheme});
        await page.evaluate(axe);
        const result = await page.evaluate(() => window.axe.run(document, {
          runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
        }));
        assert.ok(result.passes.length > 10, 'axe-core did not look at much');
        assert.deepEqual(
            result.violations.map(
                one => `${one.id}: ${one.help}: ${one.nodes.map(node => node.html).join(' | ')}`),
            [], colorScheme);
        await context.close();
      }
    });

    test('prints', async () => {
      const {page, context} = await open(name);
      for (const format of ['A4', 'Letter']) {
        const pdf = (await page.pdf({format})).toString('latin1');
        const sheets = pdf.match(/\/Type\s*\/Page\b(?!s)/g).length;
        assert.ok(sheets <= 2, `${format}: ${sheets} sheets`);
      }
      await context.close();
    });
  });
}

describe('the coach\'s page', () => {
  const texts = async (page, selector) => (await page.locator(selector).allInnerTexts());

  test('leads to every student\'s page', async () => {
    const {page, context} = await open('coach.html');
    const links = await page.locator('#roster a').evaluateAll(all => all.map(a => a.href));
    assert.ok(links.length > 2);
    for (const link of links) {
      const there = await context.newPage();
      await there.goto(link);
      assert.equal(await there.locator('h1').count(), 1, link);
    }
    await context.close();
  });

  test('is sorted by a column, both ways, what is missing last', async () => {
    const {page, context} = await open('coach.html');
    const grades = () => texts(page, '#roster tbody tr td:nth-child(5)');
    const button = page.locator('#roster thead button').nth(4);
    await button.click();
    const number = text => parseFloat(text);
    const up = (await grades()).filter(text => !isNaN(number(text))).map(number);
    assert.deepEqual(up, [...up].sort((a, b) => a - b));
    assert.equal(await page.locator('#roster th[aria-sort]').getAttribute('aria-sort'), 'ascending');
    await button.press('Enter');
    const down = (await grades()).filter(text => !isNaN(number(text))).map(number);
    assert.deepEqual(down, [...up].reverse());
    assert.ok(up.length > 1);
    assert.ok(isNaN(number((await grades()).at(-1))), 'no grade is not last');
    await context.close();
  });

  test('shows only what is looked for', async () => {
    const {page, context} = await open('coach.html');
    const all = await page.locator('#roster tbody tr').count();
    await page.fill('#filter', 's-0421');
    assert.equal(await page.locator('#roster tbody tr:visible').count(), 1);
    assert.equal(await page.locator('#shown').innerText(), `1 / ${all}`);
    await page.fill('#filter', '');
    assert.equal(await page.locator('#roster tbody tr:visible').count(), all);
    await context.close();
  });
});

test('the page after earlier films draws the way there, and tells it aloud', async () => {
  const {page, context} = await open('students/s-0402-7-iron-again/page.html');
  assert.equal(await page.locator('.course-picture').count(), 2);
  assert.equal(await page.getByRole('img', {name: /2026-03-14: 26 ± 4°.*2026-04-11: 39 ± 4°/}).count(), 1);
  await page.goto(pathToFileURL(join(folder, 'students/s-0402-7-iron/page.html')).href);
  assert.equal(await page.locator('.course-picture').count(), 0);
  await context.close();
});
