import { createHash } from 'node:crypto'
import { demand } from '@/lib/base/demand'
import { html, Markup } from '../../taste/html'
import { answerFields } from '../answer-fields'
import type { HomeSheetWords } from '../say-home-sheet'
import { sheetMarkup } from '../sheet-markup'

/** Names a text in a policy: that script and that style count, and no other that somebody put into the file. */
const named = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`

/**
 * One page that needs nothing else: it opens from a disk, asks no network, and writes the answer out as a text.
 *
 * @param built  script and style as they were bundled
 */
export function homeFile(words: HomeSheetWords, built: { readonly script: string; readonly style: string }): string {
  const script = built.script.trim()
  const style = built.style.trim()
  demand(!/<\/(script|style)|<!--/i.test(script + style), 'what the file carries must not end its own element')
  const policy = [
    "default-src 'none'",
    `script-src ${named(script)}`,
    `style-src ${named(style)}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ')
  // both elements hold exactly what the policy names: a blank more in them, and a browser lets neither count
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${policy}" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="referrer" content="no-referrer" />
        <meta name="robots" content="noindex" />
        <title>${words.title}, for home</title>
        ${new Markup(`<style>${style}</style>`)}
      </head>
      <body>
        <main>
          ${sheetMarkup(words)}
          <section>
            <h2>How was it?</h2>
            <p>
              The café would like to hear how it went. Nothing leaves this file by itself: fill in what you like, write
              it out, and send the text however you talk to the café. It is read beside what blind tastings found, and
              never counted with it. Give no name if you want none; the café forgets names after a time, and when you
              ask.
            </p>
            <noscript
              ><p class="problem">
                Without scripts it cannot be written out: tell the café in your own words, and name the sheet
                ${words.mark}.
              </p></noscript
            >
            <form hidden novalidate data-mark="${words.mark}">
              ${answerFields()}
              <p class="problem" id="problem" role="alert"></p>
              <button type="submit">Write it out</button>
            </form>
            <div id="out" hidden>
              <p class="field">
                <label for="text">Your answer, to copy</label><textarea id="text" readonly rows="12"></textarea>
              </p>
              <p><button type="button" id="copy">Copy it</button></p>
              <p id="told" role="status"></p>
            </div>
          </section>
        </main>
        ${new Markup(`<script>${script}</script>`)}
      </body>
    </html> `.text
}
