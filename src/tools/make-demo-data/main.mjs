import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { demoFiles } from './files.mjs';

/** Writes the demo data: `node src/tools/make-demo-data/main.mjs`. What it writes is committed; a test compares the two. */

const folder = fileURLToPath(new URL('../../../demo-data/', import.meta.url));
for (const [name, bytes] of demoFiles()) {
	const path = join(folder, name);
	mkdirSync(dirname(path), { recursive: true });
	writeFileSync(path, bytes);
	process.stdout.write(`${name}: ${bytes.length} bytes\n`);
}
