import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, it } from 'vitest';
import { root } from '../../src/tools/run.mjs';

it('the command serve serves the app, says where, and ends cleanly on SIGTERM', async () => {
	const data = await mkdtemp(path.join(tmpdir(), 'doorwright-serve-'));
	const child = spawn(process.execPath, ['src/cli/launch.mjs', 'serve'], {
		cwd: root,
		env: { ...process.env, PORT: '0', DOORWRIGHT_DATA: data },
		stdio: ['ignore', 'pipe', 'pipe']
	});
	try {
		let printed = '';
		const url = await new Promise<string>((resolve, reject) => {
			child.stdout.setEncoding('utf8').on('data', (text: string) => {
				printed += text;
				const [, found] = /serves (http:\/\/\S+)/.exec(printed) ?? [];
				if (found !== undefined) resolve(found);
			});
			child.once('exit', () => reject(new Error(`ended before it served: ${printed}`)));
		});
		const page = await fetch(url);
		expect(page.status).toBe(200);
		expect(await page.text()).toContain('<!doctype html>');
		child.kill('SIGTERM');
		expect(await once(child, 'exit')).toEqual([0, null]);
	} finally {
		child.kill('SIGKILL');
		await rm(data, { recursive: true, force: true });
	}
});
