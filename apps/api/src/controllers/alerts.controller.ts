import { Controller, Delete, Get, HttpCode, Put, UseGuards } from '@nestjs/common';
import { CallingMember, MemberInPerson, OfOperation, type Member } from '../access/index.ts';
import { AlertChoices, alertChoice, type KeptChoice } from '../alerts/index.ts';
import { Post as Mail } from '../archive/index.ts';
import { bodyOf, JsonBody } from '../http/index.ts';

/** What the person who asks wants to be told by e-mail of this operation. */
@Controller('api/v1/operations/:operationId/alerts')
@UseGuards(OfOperation, MemberInPerson)
export class AlertsController {
  constructor(
    private readonly choices: AlertChoices,
    private readonly mail: Mail,
  ) {}

  /** `choice` is null for who asked for nothing; `mail` is false where no mail server was named: nothing goes out then. */
  @Get()
  async read(@CallingMember() member: Member): Promise<object> {
    return { choice: shown(await this.choices.of(member)), mail: this.mail.possible };
  }

  @Put()
  async set(@CallingMember() member: Member, @JsonBody() body: unknown): Promise<object> {
    return { choice: shown(await this.choices.set(member, bodyOf(alertChoice, body))), mail: this.mail.possible };
  }

  /** No letter any more; the address is forgotten. */
  @Delete()
  @HttpCode(204)
  async end(@CallingMember() member: Member): Promise<void> {
    await this.choices.end(member);
  }
}

const shown = (choice: KeptChoice | null): object | null =>
  choice && {
    address: choice.address,
    tells: choice.tells,
    quiet: choice.quiet,
    language: choice.language,
    since: choice.since.toISOString(),
    failure: choice.failure,
  };
