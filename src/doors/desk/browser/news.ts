import type { NewsAnswer } from '../wire.ts'
import { fetchJson } from './ask.ts'

/** How often the desk is asked whether a file was changed elsewhere, in milliseconds. */
const newsEvery = 800

/** Tells of files that were changed elsewhere, from now on, while the page is looked at. */
export function listenForNews(hear: (news: NewsAnswer['news']) => void): void {
  let newsAt = -1
  const ask = async (): Promise<void> => {
    const answer = await fetchJson<NewsAnswer>(`news?after=${newsAt}`).catch(() => null)
    if (answer === null) return
    newsAt = answer.at
    hear(answer.news)
  }
  setInterval(() => {
    if (document.visibilityState === 'visible') void ask()
  }, newsEvery)
  void ask()
}
