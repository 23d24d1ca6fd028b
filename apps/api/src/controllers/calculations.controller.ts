import { Controller, HttpCode, Param, Post, UseGuards } from '@nestjs/common';
import { calculations, isCalculation, isRefusal } from '@furrowmark/domain';
import { Flood } from '../http/flood.guard.ts';
import { JsonBody, notFound, ProblemAnswer } from '../http/index.ts';

/** Calculations that anybody may ask for: nothing is read, nothing is recorded. */
@Controller('api/v1/calc')
@UseGuards(Flood)
export class CalculationsController {
  @Post(':name')
  @HttpCode(200)
  calculate(@Param('name') name: string, @JsonBody() question: unknown): object {
    if (!isCalculation(name)) throw notFound();
    const answer = calculations[name].run(question);
    if (isRefusal(answer)) throw new ProblemAnswer('impossible-input', answer.refused.detail, answer.refused.errors);
    return answer;
  }
}
