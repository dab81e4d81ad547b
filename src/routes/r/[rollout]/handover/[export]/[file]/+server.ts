import { error } from '@sveltejs/kit';
import { noteCopy } from '$lib/server/copies';
import { contentType, findExportFile } from '$lib/server/exports';
import { rolloutOf } from '$lib/server/http/change';
import type { RequestHandler } from './$types';

/** A file of an export, for saving. */
export const GET: RequestHandler = ({ params, locals }) => {
	const open = rolloutOf(params);
	const found = findExportFile(open, params.export, params.file);
	if (!found.ok) error(404, found.faults[0]?.message ?? 'There is no such file.');
	const file = found.value;
	const name = `${open.id}-${file.name}`;
	noteCopy(open.id, params.export, `export ${params.export}`, name, locals.actor);
	return new Response(file.content(), {
		headers: {
			'content-type': contentType(file),
			'content-disposition': `attachment; filename="${name}"`
		}
	});
};
