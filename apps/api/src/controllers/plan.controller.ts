import { Controller, Get, HttpCode, Post, UseGuards } from '@nestjs/common';
import { planRequest } from '@furrowmark/domain';
import { CallingMember, OfOperation, type Member } from '../access/index.ts';
import { bodyOf, JsonBody, ProblemAnswer } from '../http/index.ts';
import { Views } from '../views/index.ts';

@Controller('api/v1/operations/:operationId')
@UseGuards(OfOperation)
export class PlanController {
  constructor(private readonly views: Views) {}

  /** Brews planned backwards from the spray window; nothing is recorded. */
  @Post('plan')
  @HttpCode(200)
  async plan(@CallingMember() member: Member, @JsonBody() body: unknown): Promise<object> {
    const plan = await this.views.plan(member.operationId, bodyOf(planRequest(), body));
    if (!('errors' in plan)) return plan;
    throw new ProblemAnswer('impossible-input', plan.errors[0]?.detail ?? 'This cannot be planned.', plan.errors);
  }

  /** What a phone needs to work without reception. */
  @Get('kit')
  kit(@CallingMember() member: Member): Promise<object> {
    return this.views.kit(member.operationId);
  }
}
