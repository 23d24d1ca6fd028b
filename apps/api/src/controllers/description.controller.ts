import { Controller, Get } from '@nestjs/common';
import { openApi } from '../openapi/index.ts';

@Controller('api/openapi.json')
export class DescriptionController {
  /** The HTTP interface, as OpenAPI 3.1. */
  @Get()
  description(): object {
    return openApi();
  }
}
