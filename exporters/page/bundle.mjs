// Bundles the viewer and writes it, the style and the viewer library's licence as C++ text.
//   node bundle.mjs SOURCE_FOLDER MODULES_FOLDER OUT.cpp
import {createRequire} from 'node:module';
import {readFileSync, writeFileSync} from 'node:fs';
import {join, resolve} from 'node:path';

const [source, modules, out] = process.argv.slice(2).map(path => resolve(path));
const require = createRequire(join(modules, 'package.json'));
const esbuild = require('esbuild');
const viewer = readFileSync(join(source, 'viewer.js'), 'utf8');
const bundle = await esbuild.build({
  stdin: {contents: viewer, resolveDir: modules, sourcefile: 'viewer.js'},
  bundle: true, minify: true, format: 'iife', target: 'es2020', write: false, legalComments: 'none', charset: 'ascii',
});

// No literal is longer than what every compiler takes; no text of ours ends a script early.
function literal(name, text) {
  const bytes = Buffer.from(text, 'utf8').toString('latin1');
  let body = '';
  for (let at = 0; at < bytes.length; at += 8000) {
    const escaped = bytes.slice(at, at + 8000).replace(/[\\"?]/g, c => '\\' + c).replace(/\n/g, '\\n').replace(/\r/g, '\\r')
      .replace(/\t/g, '\\t').replace(/[^\x20-\x7e]/g, c => '\\' + c.charCodeAt(0).toString(8).padStart(3, '0'));
    body += `    "${escaped}"\n`;
  }
  return `extern const std::string_view ${name};\nconst std::string_view ${name}(\n${body}    , ${bytes.length});\n`;
}

const script = bundle.outputFiles[0].text.replace(/<\/script/gi, '<\\/script').replace(/<!--/g, '<\\!--');
const licence = readFileSync(join(modules, 'node_modules/three/LICENSE'), 'utf8');
writeFileSync(out, '// Written by bundle.mjs at build time.\n#include <string_view>\n\nnamespace halfhard::page {\n' +
  literal('kViewerScript', script) + literal('kPageStyle', readFileSync(join(source, 'page.css'), 'utf8')) +
  literal('kViewerLicence', licence) + '}  // namespace halfhard::page\n');
