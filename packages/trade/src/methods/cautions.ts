/**
 * Usual cautions of the bench, shown before the act that they belong to. They remind; the laboratory's own instructions,
 * local codes and the safety data sheets of the materials come first.
 */
export const cautions = {
  emulsion:
    'Emulsion irritates eyes and skin, and acid soap can hurt eyes badly: gloves, sleeves and eye protection. Spills are slippery; keep them out of drains.',
  filler:
    'Cement and lime are strongly alkaline when wet and hold chromium that inflames skin: gloves and goggles; do not raise dust.',
  additive: 'Set-control additives can be acid or caustic: gloves and goggles, and read their safety data sheet first.',
  dust: 'Aggregate and sand dust holds fine silica that harms lungs: weigh under extraction or wear a dust mask.',
  oven: 'The oven and what comes out of it burn: insulated gloves. Nothing wiped with solvent goes into a warm oven; it can catch fire.',
  microwave: 'Do not dry mix in a microwave oven: it can catch fire.',
  abrasion:
    'Never reach in to feel the hose while the head turns. Unplug the machine before changing the hose. Keep the floor dry beside the motor; no loose sleeves.',
  wheel:
    'The arm and wheel crush fingers: keep hands off the track while it runs, no loose sleeves. Lift the weights with two hands or two people.',
  sand: 'Sand at 82 °C burns: insulated gloves and eye protection; pour slowly.',
  foot: 'Air pressure drives the foot down: fingers off foot and ring before it moves. Let the pressure off before the foot is changed.',
  alone: 'Hands-on work at machines is not done alone unless the laboratory allows it.',
  ignition:
    'The ignition furnace burns binder off at about 540 °C: fumes go out by its hood, a face shield, long heat gloves and no loose sleeves. Never open it while the mix burns; let the basket cool behind its cage, where nobody walks and nothing catches fire.',
  solvent:
    'Extraction solvents are poisonous or catch fire, and some are banned (trichloroethylene in many countries): fume hood, no flame, no hot plate or spark, solvent gloves and goggles; read the safety data sheet and local codes first. Waste goes into its drum, never into a drain. Nothing wet with solvent goes into an oven before it has aired off under the hood.',
  lifting: 'Bags of 25 kg: lift with two people or a trolley.',
  boiling:
    'Boiling water and steam scald: insulated gloves, tongs and eye protection. Lower the sample in gently, and carry nothing that still boils.',
  floatingBinder:
    'Binder that floats on the water stays out of drains: dispose of it as its safety data sheet and the local codes say.',
  press: 'The press crushes fingers: hands off ram and mould under load. A warm mould burns.',
  tumbler:
    'Tubes that turn or shake catch sleeves and hair: guard closed, and wait for the standstill before reaching in. Do not use cracked glass.',
} as const
