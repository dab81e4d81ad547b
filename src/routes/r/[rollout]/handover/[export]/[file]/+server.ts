import { error } from '@sveltejs/kit';
import { exportFiles } from '$lib/server/exports';
import { rolloutOf } from '$lib/server/http/change';
import type { RequestHandler } from './$types';

/** A file of an export, for saving. */
export const GET: RequestHandler = ({ params }) => {
	const open = rolloutOf(params);
	const found = exportFiles(open, params.export).at(0);
	const file = found?.files.find(({ name }) => name === params.file);
	if (!file) error(404, `There is no file ${params.file} of export ${params.export}.`);
	const name = `${open.id}-${file.name}`;
	return new Response(file.content(), {
		headers: {
			'content-type': `${file.type}; charset=utf-8`,
			'content-disposition': `attachment; filename="${name}"`
		}
	});
};
