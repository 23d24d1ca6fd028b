import { Controller, Get, Param, Post, UseGuards } from '@nestjs/common';
import { z } from 'zod';
import { CallingMember, CanSign, OfOperation, type Member, type Via } from '../access/index.ts';
import { bodyOf, JsonBody, notFound, uuidOf } from '../http/index.ts';
import { Reviews } from '../signing/index.ts';

export const newReview = z.strictObject({
  /** Chosen by whoever asks, so that the same request sent again does not sign twice. */
  id: z.guid().toLowerCase().optional(),
  throughSeq: z.number().int().min(0).optional(),
  meaning: z.enum(['reviewed', 'approved']),
  statement: z.string().trim().min(1).max(10_000),
  password: z.string().max(1000).optional(),
  /** On a shared phone, of the person signed in there. */
  pin: z.string().max(20).optional(),
});

/** Electronic signatures on a batch. */
@Controller('api/v1/operations/:operationId/batches/:batchId/reviews')
@UseGuards(OfOperation)
export class ReviewsController {
  constructor(private readonly reviews: Reviews) {}

  @Get()
  list(@CallingMember() { operationId }: Member, @Param('batchId') batchId: string): Promise<object> {
    return this.reviews.of(operationId, idOf(batchId));
  }

  @Post()
  @UseGuards(CanSign)
  sign(
    @CallingMember() member: Member & { readonly via: Via },
    @Param('batchId') batchId: string,
    @JsonBody() body: unknown,
  ): Promise<object> {
    return this.reviews.sign(member, idOf(batchId), bodyOf(newReview, body));
  }
}

function idOf(text: string): string {
  const id = uuidOf(text);
  if (id === null) throw notFound();
  return id;
}
