const mostInOne = 100;
const mostUnderWay = 2;

interface Waiting<Question, Answer> {
  readonly question: Question;
  readonly answer: (answer: Answer) => void;
  readonly fail: (reason: unknown) => void;
}

/**
 * Questions that are asked at the same time are answered by one inquiry: what arrives in the same turn, or while enough
 * inquiries are under way already, goes together. Answers come in the order of the questions; an inquiry that fails,
 * fails for all of its questions.
 */
export class Together<Question, Answer> {
  readonly #waiting: Waiting<Question, Answer>[] = [];
  #planned = false;
  #underWay = 0;

  constructor(private readonly inquire: (questions: readonly Question[]) => Promise<readonly Answer[]>) {}

  ask(question: Question): Promise<Answer> {
    const answered = new Promise<Answer>((answer, fail) => this.#waiting.push({ question, answer, fail }));
    if (!this.#planned) {
      this.#planned = true;
      setImmediate(() => {
        this.#planned = false;
        this.#next();
      });
    }
    return answered;
  }

  #next(): void {
    while (this.#waiting.length > 0 && this.#underWay < mostUnderWay) {
      this.#underWay += 1;
      void this.#one(this.#waiting.splice(0, mostInOne));
    }
  }

  async #one(asked: readonly Waiting<Question, Answer>[]): Promise<void> {
    try {
      const answers = await this.inquire(asked.map(({ question }) => question));
      asked.forEach(({ answer, fail }, i) => {
        const found = answers[i];
        if (found === undefined) fail(new Error('a question was not answered'));
        else answer(found);
      });
    } catch (error) {
      for (const { fail } of asked) fail(error);
    } finally {
      this.#underWay -= 1;
      this.#next();
    }
  }
}
