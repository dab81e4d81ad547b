import { allAnswers } from '../../core/answers';
import { documentJsonSchema, jsonSchemaOf } from '../../core/document/json-schema';
import { fieldOf } from '../../core/document/walk';
import { edits } from '../../core/edits';
import { type Endpoint, endpoints } from './endpoints';

type Json = Readonly<Record<string, unknown>>;

/**
 * The description of the API, made from the registries of questions and edits and the schema of the document.
 * @source OpenAPI Specification 3.1.0
 */
export async function openApi(version: string): Promise<Json> {
	const answers = [...(await allAnswers()).values()].flatMap(({ name, summary, params }): Endpoint[] => {
		const path = `/rollouts/{rollout}/answers/${name}`;
		const schema = jsonSchemaOf(params);
		return [
			{ path, method: 'get', summary, query: queryOf(schema), answers: { 200: 'The answer' } },
			{ path, method: 'post', summary, body: schema, answers: { 200: 'The answer' } }
		];
	});
	const changes = [...edits.values()].map(({ name, summary, params }): Endpoint => {
		const path = `/rollouts/{rollout}/edits/${name}`;
		return { path, method: 'post', summary, body: jsonSchemaOf(params), answers: { 200: 'Changed' }, isChange: true };
	});
	const paths: Record<string, Record<string, unknown>> = {};
	for (const endpoint of [...endpoints, ...answers, ...changes]) {
		(paths[endpoint.path] ??= {})[endpoint.method] = operationOf(endpoint);
	}
	return {
		openapi: '3.1.0',
		info: {
			title: 'Doorwright',
			version,
			description:
				'Questions about rollouts and changes to them. Until there are accounts the server listens on its own machine only.'
		},
		servers: [{ url: '/api/v1' }],
		paths,
		components: {
			schemas: { RolloutDocument: embedded(documentJsonSchema()), Fault: faultSchema, Faults: faultsSchema },
			responses: {
				Refused: {
					description: 'Refused; every fault in one go',
					content: jsonContent({ $ref: '#/components/schemas/Faults' })
				}
			}
		}
	};
}

function operationOf({ path, summary, query = [], body, bodyRef, answers, isChange }: Endpoint): Json {
	const inPath = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
		name,
		in: 'path',
		required: true,
		schema: { type: 'string' }
	}));
	const ifMatch = {
		name: 'if-match',
		in: 'header',
		description: 'The revision that was seen, in quotes; refused with 412 when there is another by now',
		schema: { type: 'string' }
	};
	const schema = bodyRef ? { $ref: bodyRef } : body && embedded(body);
	return {
		summary,
		parameters: [...inPath, ...query.map((one) => ({ in: 'query', ...one })), ...(isChange ? [ifMatch] : [])],
		...(schema ? { requestBody: { content: jsonContent(schema) } } : {}),
		responses: {
			...Object.fromEntries(Object.entries(answers).map(([status, description]) => [status, { description }])),
			default: { $ref: '#/components/responses/Refused' }
		}
	};
}

/** The properties of an object schema as parameters of an address; what is no plain value can only be sent as JSON. */
function queryOf(schema: Json): NonNullable<Endpoint['query']> {
	const required = fieldOf(schema, 'required');
	return Object.entries((fieldOf(schema, 'properties') ?? {}) as Record<string, Json>)
		.filter(([, field]) => field['type'] !== 'object' && field['type'] !== undefined)
		.map(([name, field]) => {
			const { description, ...rest } = field;
			return {
				name,
				required: Array.isArray(required) && required.includes(name),
				...(typeof description === 'string' ? { description } : {}),
				schema: rest
			};
		});
}

/** Within the description a schema must not name its own dialect again. */
function embedded({ $schema: _, ...schema }: Json): Json {
	return schema;
}

function jsonContent(schema: Json): Json {
	return { 'application/json': { schema } };
}

const faultSchema: Json = {
	type: 'object',
	description: 'One thing that is wrong with what was sent: where, what was found, what was expected',
	properties: {
		path: { type: 'string', description: 'Normalized path (RFC 9535) in what was sent' },
		value: { description: 'What stood there; null where nothing did' },
		expected: { type: 'string' },
		nearest: { type: 'string', description: 'The known name that was most likely meant' },
		message: { type: 'string' }
	},
	required: ['path', 'value', 'expected', 'message']
};

const faultsSchema: Json = {
	type: 'object',
	properties: { faults: { type: 'array', minItems: 1, items: { $ref: '#/components/schemas/Fault' } } },
	required: ['faults']
};
