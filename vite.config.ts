import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vitest/config';

export default defineConfig({
	plugins: [sveltekit()],
	test: {
		projects: [
			{
				extends: true,
				test: {
					name: 'code',
					environment: 'node',
					sequence: { groupOrder: 0 },
					include: ['src/**/*.test.ts', 'tests/**/*.test.ts'],
					exclude: ['tests/e2e/**'],
					testTimeout: 60_000
				}
			},
			{
				extends: true,
				test: {
					name: 'browser',
					environment: 'node',
					sequence: { groupOrder: 1 },
					include: ['tests/e2e/**/*.test.ts'],
					globalSetup: ['tests/support/prepared.ts'],
					// Each file has a server and a browser of its own: two at a time is what two cores bear.
					maxWorkers: 2,
					testTimeout: 120_000,
					hookTimeout: 120_000
				}
			}
		]
	}
});
