/**
 * What a laboratory makes for a full design before anybody has settled it: five contents, three replicates of each test, two
 * spare discs. Common practice, no source; asked for until a series is planned.
 */
export const usualSeries = {
  contents: ['10', '11', '12', '13', '14'].map((emulsionPercent) => ({
    emulsionPercent,
    waterPercent: '10',
    fillerPercent: '1',
    additivePercent: '0.2',
  })),
  methods: [
    { methodKey: 'wet-track-abrasion-1h', replicates: 3, spares: ['10', '12'].map(spareAt) },
    { methodKey: 'wet-track-abrasion-6d', replicates: 3, spares: [] },
    { methodKey: 'loaded-wheel-sand-adhesion', replicates: 3, spares: [] },
  ],
}

function spareAt(emulsionPercent: string) {
  return { emulsionPercent, count: 1 }
}
