'use client'

/** The last resort, when even the frame failed: it stands on nothing else. */
export default function GlobalError() {
  return (
    <html lang="en">
      <body>
        <main>
          <h1>This page could not be shown</h1>
          <p>What was stored is safe. Load the page again.</p>
          <a href="">Load again</a>
        </main>
      </body>
    </html>
  )
}
