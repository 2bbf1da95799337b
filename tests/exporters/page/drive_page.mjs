// Drives a job page as a person with a phone would, in a browser that is not ours, over the browser's own debugging pipe:
//   node drive_page.mjs CHROMIUM PAGE.html PROFILE-FOLDER [PICTURE.png]
// Prints what it saw as JSON: the model drawn, turned by a finger and brought back by a button, a card opened and read,
// a pipe tapped; what ran that should not have, and what the page complained of.
import {spawn} from 'node:child_process';
import {writeFileSync} from 'node:fs';
import {pathToFileURL} from 'node:url';

const [, , chromium, page, profile, picture] = process.argv;
const browser = spawn(
    chromium,
    ['--headless', '--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader',
     '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync',
     '--user-data-dir=' + profile, '--remote-debugging-pipe', 'about:blank'],
    {stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe']});
const [, , , toBrowser, fromBrowser] = browser.stdio;

let last = 0, rest = '';
const waiting = new Map();
const complaints = [], dialogs = [], fetched = [];
fromBrowser.setEncoding('utf8');
fromBrowser.on('data', data => {
  rest += data;
  for (let end; (end = rest.indexOf('\0')) >= 0; rest = rest.slice(end + 1)) heard(JSON.parse(rest.slice(0, end)));
});

function heard(message) {
  if (message.id) {
    const {done, failed} = waiting.get(message.id);
    waiting.delete(message.id);
    message.error ? failed(new Error(message.error.message)) : done(message.result);
    return;
  }
  if (message.method === 'Runtime.exceptionThrown') complaints.push(message.params.exceptionDetails.text);
  if (message.method === 'Log.entryAdded' && message.params.entry.level === 'error')
    complaints.push(message.params.entry.text);
  if (message.method === 'Page.javascriptDialogOpening') dialogs.push(message.params.message);
  if (message.method === 'Network.requestWillBeSent') {
    const url = message.params.request.url;
    if (!/^(file|data|blob):/.test(url)) fetched.push(url);
  }
}

function ask(method, params = {}, sessionId) {
  return new Promise((done, failed) => {
    waiting.set(++last, {done, failed});
    toBrowser.write(JSON.stringify({id: last, method, params, sessionId}) + '\0');
  });
}

const pause = ms => new Promise(done => setTimeout(done, ms));

// Whether it comes to be true within 15 seconds: a busy machine draws late.
async function comes(isTrue) {
  for (let i = 0; i < 150; ++i) {
    if (await isTrue()) return true;
    await pause(100);
  }
  return false;
}

async function drive() {
  const {targetId} = await ask('Target.createTarget', {url: 'about:blank'});
  const {sessionId} = await ask('Target.attachToTarget', {targetId, flatten: true});
  const tell = (method, params) => ask(method, params, sessionId);
  const value = async expression =>
      (await tell('Runtime.evaluate', {expression, returnByValue: true, awaitPromise: true})).result.value;
  for (const room of ['Page', 'Runtime', 'Log', 'Network']) await tell(room + '.enable');
  await tell('Emulation.setDeviceMetricsOverride', {width: 390, height: 844, deviceScaleFactor: 2, mobile: true});
  await tell('Emulation.setTouchEmulationEnabled', {enabled: true});
  await tell('Page.navigate', {url: pathToFileURL(page).href});
  for (let i = 0; i < 300 && !await value("document.getElementById('model')?.dataset.ready"); ++i) await pause(100);

  const seen = {ready: await value("document.getElementById('model')?.dataset.ready ?? ''")};
  const drawn = () => value("document.querySelector('#model canvas').toDataURL()");
  const middle = await value(`(() => {
    const area = document.querySelector('#model canvas').getBoundingClientRect();
    return [area.left + area.width / 2, area.top + area.height / 2];
  })()`);
  const touch = (type, points) => tell('Input.dispatchTouchEvent', {type, touchPoints: points.map(([x, y]) => ({x, y}))});

  const first = await drawn();
  await touch('touchStart', [middle]);
  for (let i = 1; i <= 8; ++i) await touch('touchMove', [[middle[0] + 12 * i, middle[1] + 3 * i]]);
  await touch('touchEnd', []);
  seen.turnedByAFinger = await comes(async () => await drawn() !== first);
  await value("document.querySelector('[data-view=iso]').click()");
  seen.broughtBackByAButton = await comes(async () => await drawn() === first);
  await value("document.getElementById('show-fixtures').click()");
  seen.fixturesHidden = await comes(async () => await drawn() !== first);

  // A card: its summary is scrolled to and tapped; what it holds then takes room on the screen.
  seen.cards = await value("document.querySelectorAll('details:not(.licence) svg').length");
  const card = await value(`(() => {
    const card = [...document.querySelectorAll('details:not(.licence)')].find(d => d.querySelector('svg'));
    if (!card) return false;
    card.id = 'driven';
    card.scrollIntoView({block: 'center'});
    return true;
  })()`);
  await pause(500);
  const summary = card && await value(`(() => {
    const area = document.querySelector('#driven summary').getBoundingClientRect();
    return [area.left + 20, area.top + 12];
  })()`);
  if (summary) {
    await touch('touchStart', [summary]);
    await touch('touchEnd', []);
    seen.cardOpened = await comes(() => value("document.getElementById('driven').open"));
    seen.drawingWide = await value("document.querySelector('#driven svg').getBoundingClientRect().width");
  }
  seen.wider = await value('Math.max(document.documentElement.scrollWidth, innerWidth) - 390');
  seen.hurt = await value('typeof window.hurt');
  seen.strangers = await value("document.querySelectorAll('img, iframe, object, embed, [onerror], [onload]').length");
  seen.scripts = await value("document.querySelectorAll('script').length");
  if (picture) {
    const {data} = await tell('Page.captureScreenshot', {format: 'png'});
    writeFileSync(picture, Buffer.from(data, 'base64'));
  }
  return {...seen, complaints, dialogs, fetched};
}

const tooLong = setTimeout(() => {
  browser.kill('SIGKILL');
  process.exit(3);
}, 80000);
try {
  console.log(JSON.stringify(await drive()));
} catch (failure) {
  console.error(String(failure));
  process.exitCode = 1;
}
clearTimeout(tooLong);
browser.kill('SIGKILL');
