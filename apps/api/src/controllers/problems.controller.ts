import { Controller, Get, Param } from '@nestjs/common';
import { isProblemType, notFound, problemTypes } from '../http/index.ts';

/** Where a problem's `type` leads: what it means and what to do. */
@Controller('problems')
export class ProblemsController {
  @Get(':type')
  explain(@Param('type') type: string): object {
    if (!isProblemType(type)) throw notFound();
    return { type: `/problems/${type}`, ...problemTypes[type] };
  }
}
