/** @type {import('next').NextConfig} */
const config = {
  // `npm start` names a folder for each version, so that a new build never disturbs one that is being served
  distDir: process.env.NEXT_DIST_DIR || '.next',
  turbopack: { root: import.meta.dirname },
  reactStrictMode: true,
  poweredByHeader: false,
  devIndicators: false,
  typescript: { tsconfigPath: process.env.NEXT_DIST_DIR ? 'tsconfig.build.json' : 'tsconfig.json' },
  serverExternalPackages: [
    '@node-rs/argon2',
    '@prisma/adapter-better-sqlite3',
    '@prisma/client',
    'better-sqlite3',
    'pino',
  ],
  outputFileTracingExcludes: { '*': ['.data/**', '.tmp/**', 'test/**'] },
  // otherwise Next writes the name of its output folder into tsconfig.json at every build
  experimental: { strictRouteTypes: true },
}

export default config
