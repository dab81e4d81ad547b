import { writeDocument } from '../document/write';
import { defineExport } from './define-export';

export default defineExport({
	name: 'document',
	title: 'Rollout document',
	summary: 'Everything, in one JSON file that this app and the command line read again without loss.',
	files: ({ document }) => [
		{
			name: 'rollout.json',
			type: 'application/json',
			content: () => writeDocument(document),
			about: 'Everything about this rollout'
		}
	]
});
