import path from 'node:path';
import { build } from 'vite';
import { root } from './run.mjs';

// Bundles one program that runs in Node without the app's server: node src/tools/bundle.mjs ENTRY FOLDER
const [entry, folder] = process.argv.slice(2);
if (entry === undefined || folder === undefined) throw new Error('usage: bundle.mjs ENTRY FOLDER');

await build({
	configFile: false,
	root,
	logLevel: 'warn',
	resolve: { alias: { $lib: path.join(root, 'src/lib') } },
	// One file loads faster than the hundred small ones of a package: a command starts in half of the time. What is
	// imported dynamically stays a file of its own, loaded by the commands that need it.
	ssr: { noExternal: true, external: ['better-sqlite3', 'highs'] },
	build: {
		ssr: path.join(root, entry),
		outDir: path.join(root, folder),
		emptyOutDir: true,
		target: 'node20',
		minify: false,
		rollupOptions: { output: { entryFileNames: '[name].js', chunkFileNames: 'chunks/[name]-[hash].js' } }
	}
});
