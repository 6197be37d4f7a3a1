/**
 * The layers of the house. An import that goes the wrong way fails `npm run check`; type imports count as imports.
 * physics: world > tear | membrane | eye | instrument > mesh > core, with scenario and opening above world except for
 * their files of plain types and data, which any layer may read, then sweep, and verify above all.
 */
const data =
  '^physics/(scenario/(scenario|hand)|opening/metrics|world/(contract|attempt-result)|instrument/contract|eye/parameters)\\.ts$';
const inPhysics = (folders) => `^physics/(${folders.join('|')})/`;

/** What each folder of the physics may not reach. */
const above = {
  core: ['mesh', 'membrane', 'eye', 'tear', 'instrument', 'world', 'opening', 'scenario', 'sweep', 'verify'],
  mesh: ['membrane', 'eye', 'tear', 'instrument', 'world', 'opening', 'scenario', 'sweep', 'verify'],
  membrane: ['world', 'opening', 'scenario', 'sweep', 'verify'],
  eye: ['world', 'opening', 'scenario', 'sweep', 'verify'],
  tear: ['world', 'opening', 'scenario', 'sweep', 'verify'],
  instrument: ['world', 'opening', 'scenario', 'sweep', 'verify'],
  world: ['opening', 'scenario', 'sweep', 'verify'],
  opening: ['sweep', 'verify'],
  scenario: ['sweep', 'verify'],
  sweep: ['verify'],
};

const layers = Object.entries(above).map(([folder, forbidden]) => ({
  name: `physics-${folder}-stays-below`,
  severity: 'error',
  from: { path: inPhysics([folder]) },
  to: { path: inPhysics(forbidden), pathNot: data },
}));

module.exports = {
  forbidden: [
    ...layers,
    {
      name: 'physics-is-pure',
      comment: 'No Node, no Electron, no drawing, no page: only its own files and libraries that run anywhere.',
      severity: 'error',
      from: { path: '^physics/' },
      to: {
        dependencyTypes: ['core', 'npm', 'npm-dev', 'npm-optional', 'npm-no-pkg', 'npm-unknown'],
        pathNot:
          'node_modules/(zod|matter-js|@types/matter-js|delaunator|@types/delaunator|@kninnug/constrainautor|robust-predicates)/',
      },
    },
    {
      name: 'physics-knows-no-shell',
      severity: 'error',
      from: { path: '^physics/' },
      to: { path: '^(src-main|src-renderer|tests|bin)/' },
    },
    {
      name: 'one-door-into-physics',
      severity: 'error',
      from: { path: '^(src-main|src-renderer)/' },
      to: { path: '^physics/', pathNot: '^physics/index\\.ts$' },
    },
    {
      name: 'scenarios-are-data',
      severity: 'error',
      from: { path: '^scenarios/' },
      to: { pathNot: '^(scenarios/|physics/index\\.ts$)' },
    },
    {
      name: 'page-knows-only-the-contract',
      comment: 'The page and the program around it meet in types, nowhere else.',
      severity: 'error',
      from: { path: '^src-renderer/' },
      to: { path: '^src-main/', pathNot: '^src-main/ipc/contract\\.ts$' },
    },
    {
      name: 'program-knows-no-page',
      comment:
        "Reports, menus and dialogs take their words from the page's message files, and tell its sentences as it does.",
      severity: 'error',
      from: { path: '^src-main/' },
      to: {
        path: '^(src-renderer|tests|bin)/',
        pathNot: '^src-renderer/i18n/(languages/[a-z]+\\.json|(languages|retold|shipped-texts|template)\\.ts)$',
      },
    },
    {
      name: 'three-only-on-the-stage',
      severity: 'error',
      from: { pathNot: '^(src-renderer/stage|tests)/' },
      to: { path: 'node_modules/(@types/)?three/' },
    },
    {
      name: 'react-only-in-the-page',
      severity: 'error',
      from: { pathNot: '^(src-renderer|tests|vite\\.config)' },
      to: { path: 'node_modules/(@types/)?(react|react-dom|zustand)/' },
    },
    {
      name: 'electron-only-in-its-shell',
      severity: 'error',
      from: { pathNot: '^(src-main/(electron|preload)|tests)/' },
      to: { path: '(^electron$|node_modules/electron/)' },
    },
    {
      name: 'contract-is-alone',
      comment: 'The page imports it, so it may drag nothing along.',
      severity: 'error',
      from: { path: '^src-main/ipc/(store-)?contract\\.ts$' },
      to: { pathNot: '^(physics/index|src-main/ipc/store-contract)\\.ts$' },
    },
    {
      name: 'node-only-outside-the-page',
      severity: 'error',
      from: { path: '^(src-renderer/|src-main/ipc/)' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'nothing-imports-tests',
      severity: 'error',
      from: { pathNot: '^tests/' },
      to: { path: '^tests/' },
    },
    {
      name: 'no-circles',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    {
      name: 'everything-resolves',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true, pathNot: '^virtual:' },
    },
  ],
  options: {
    parser: 'swc',
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.js', '.mjs', '.cjs', '.json', '.d.ts'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'node', 'default'],
    },
  },
};
