'use client'

import words from '../messages/en/last-resort.json'

/** The last resort, when even the frame failed: it stands on nothing else. */
export default function GlobalError() {
  return (
    <html lang="en">
      <body>
        <main>
          <title>{words['lastResort.title']}</title>
          <h1>{words['lastResort.title']}</h1>
          <p>{words['lastResort.text']}</p>
          <button type="button" onClick={() => location.reload()}>
            {words['lastResort.again']}
          </button>
        </main>
      </body>
    </html>
  )
}
