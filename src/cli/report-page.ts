// stub
import type { Answer } from './answers.ts';
import type { Request } from './request.ts';

export async function reportPage(answer: Answer, request: Request): Promise<string> {
  void answer;
  void request;
  return '';
}
