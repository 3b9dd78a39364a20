/** What the full-size season promises, and what might come over it. It names rooms of that season alone. */
export const fullSeasonPromises = {
  path: 'expect.lotplan.yaml',
  text: `# What this plan promises to others, checked like tests: \`lotwright expect\` tells which promises are kept, the editor
# underlines those that are not, and its test explorer lists them all.
lotwright: 1

expect:
  gala-nearly-all:
    shortage: { variety: Gala, class: first, at-most: 200 }
    because: two retailers' programmes to the middle of March
  first-class-exports:
    shortage: { market: export, class: first, at-most: 1500 }
  elstar-first:
    opens: { room: N01, before: 2026-W40 }
    because: Elstar does not wait
  late-fuji:
    in-store: { variety: Fuji, on: 2027-04-01, at-least: 40 % }
    because: the spring programme overseas
  headroom-s1:
    scrubber-load: { scrubber: S1, at-most: 95 % }
  nitrogen-in-time:
    nitrogen-load: { nitrogen: GEN-1, at-most: 100 % }
  engine-room:
    refrigeration-load: { group: plant-main, at-most: 100 % }
  gala-room-n13:
    window: { room: N13, at-least: 8 weeks }
  every-room-opened:
    no-finding: { code: room-left-closed }
  worth-the-season:
    value: { at-least: 5900000 }

# Plans that might be, laid over this one: \`lotwright whatif hail\`. The plan itself stays as it is.
scenarios:
  hail:
    says: hail takes a fifth of the Gala and of the Jonagold
    crop-of: { Gala: 80 %, Jonagold: 80 % }
  old-compressor:
    says: one compressor of the main plant fails, and a scrubber is serviced in the rush
    change:
      plant:
        refrigeration: { plant-main: { capacity: 210 kW } }
        scrubbers: { S2: { out-of-use: [2026-09-30..2026-10-01] } }
`,
};
