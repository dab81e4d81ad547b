import { describe, expect, it } from 'vitest';

// One thing, one file, and the file bears its name: so that whoever reads a code in an answer finds where it is made.

type Modules = Record<string, Record<string, unknown>>;

const registries: Record<string, { key: string; modules: Modules }> = {
	checks: {
		key: 'code',
		modules: import.meta.glob(['/src/lib/core/checks/*.ts', '!**/*.test.ts'], { eager: true })
	},
	answers: {
		key: 'name',
		modules: import.meta.glob(['/src/lib/core/answers/*.ts', '!**/*.test.ts'], { eager: true })
	},
	edits: {
		key: 'name',
		modules: import.meta.glob(['/src/lib/core/edits/*.ts', '!**/*.test.ts'], { eager: true })
	},
	mends: {
		key: 'code',
		modules: import.meta.glob(['/src/lib/core/mends/*.ts', '!**/*.test.ts'], { eager: true })
	},
	exports: {
		key: 'name',
		modules: import.meta.glob(['/src/lib/core/exports/*.ts', '!**/*.test.ts'], { eager: true })
	},
	packs: {
		key: 'id',
		modules: import.meta.glob(['/src/lib/core/privacy/packs/*.ts', '!**/*.test.ts'], { eager: true })
	}
};

function nameOf(file: string): string {
	return file.replace(/^.*\//, '').replace(/\.ts$/, '');
}

/** The entries of a registry: every file but its index and its definition. */
function entriesOf(modules: Modules): [string, Record<string, unknown>][] {
	return Object.entries(modules).filter(([file]) => nameOf(file) !== 'index' && !nameOf(file).startsWith('define-'));
}

describe.each(Object.entries(registries))('core/%s', (_, { key, modules }) => {
	it('holds one entry per file, named as the file is', () => {
		expect(entriesOf(modules).length).toBeGreaterThan(0);
		for (const [file, module] of entriesOf(modules)) {
			const entry = module['default'] as Record<string, unknown> | undefined;
			expect(entry, `${file} has no default export`).toBeDefined();
			expect(entry?.[key], `the ${key} of ${file}`).toBe(nameOf(file));
		}
	});
});
