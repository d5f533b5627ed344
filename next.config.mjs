const isDev = process.env.NODE_ENV === 'development'

// Nothing is fetched from anywhere but this server. Next writes its start-up script into the page, hence 'unsafe-inline';
// next dev evaluates code and keeps a socket open. No upgrade to https: phones come by plain http.
const contentPolicy = [
  "default-src 'self'",
  `script-src 'self' 'unsafe-inline'${isDev ? " 'unsafe-eval'" : ''}`,
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  `connect-src 'self'${isDev ? ' ws:' : ''}`,
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ')

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
  headers: async () => [
    {
      // what a taster's phone is sent has stricter headers of its own (app/taste/respond.ts); these would replace them
      source: '/((?!taste|seat/|join/|try/).*)',
      headers: [
        { key: 'Content-Security-Policy', value: contentPolicy },
        { key: 'X-Content-Type-Options', value: 'nosniff' },
        { key: 'X-Frame-Options', value: 'DENY' },
        // not no-referrer: that makes browsers send 'Origin: null' with a form, and secret addresses stay here either way
        { key: 'Referrer-Policy', value: 'same-origin' },
        { key: 'Permissions-Policy', value: 'camera=(), geolocation=(), microphone=(), browsing-topics=()' },
      ],
    },
  ],
}

export default config
