import type { MetadataRoute } from 'next'

/** What a tablet installs the bench by: it opens by itself, without a browser's bars. */
export default function manifest(): MetadataRoute.Manifest {
  return {
    name: 'Curebook',
    short_name: 'Curebook',
    description: 'The bench book of a surfacing laboratory.',
    id: '/',
    start_url: '/',
    display: 'standalone',
    background_color: '#f6f1e7',
    theme_color: '#0f4f4a',
    icons: [
      { src: '/icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
      { src: '/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
      { src: '/icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
    ],
  }
}
