/** The JSON Schemas for editors, as files. */
import { briefJsonSchema } from '../brief/index.ts';
import { correctionJsonSchema } from './correction-file.ts';
import { designJsonSchema } from './design-schema.ts';
import { frontJsonSchema } from './front-schema.ts';
import { writeJson } from './json.ts';
import { verifyJsonSchema } from './verify-schema.ts';

/**
 * Text of every exported JSON Schema by file name.
 *
 * @param measures ids of all measures, for completion in editors.
 */
export function schemaFiles(measures?: readonly string[]): Readonly<Record<string, string>> {
  return {
    'brief-1.schema.json': writeJson(briefJsonSchema(measures)),
    'design-1.schema.json': writeJson(designJsonSchema(measures)),
    'front-1.schema.json': writeJson(frontJsonSchema()),
    'correction-1.schema.json': writeJson(correctionJsonSchema()),
    'verify-1.schema.json': writeJson(verifyJsonSchema()),
  };
}
