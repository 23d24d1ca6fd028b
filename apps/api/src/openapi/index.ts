import { components } from './schemas.ts';
import { paths } from './paths.ts';

let made: object | null = null;

/** The description of the HTTP interface (OpenAPI 3.1), made from the schemas that validate. */
export function openApi(): object {
  made ??= {
    openapi: '3.1.0',
    info: {
      title: 'Furrowmark',
      version: '1',
      description:
        'Records of an organic operation that brews aerated microbial tea. What was recorded stays; errors are RFC 9457 problems.',
    },
    servers: [{ url: '/' }],
    security: [{ token: [] }, { session: [] }],
    paths: paths(),
    components: {
      schemas: components(),
      securitySchemes: {
        token: { type: 'http', scheme: 'bearer' },
        session: { type: 'apiKey', in: 'cookie', name: 'furrowmark_session' },
      },
    },
  };
  return made;
}
