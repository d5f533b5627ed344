import 'server-only'
import { networkInterfaces } from 'node:os'
import { theEnvironment } from '@/lib/base/env'

/** One network address of this computer. */
export interface NetworkAddress {
  readonly family: string
  readonly address: string
  readonly internal: boolean
}

/** Where phones find this computer: the address in use, and what else one could choose. None when there is no network. */
export interface PublicAddress {
  readonly address: string | null
  readonly choices: readonly string[]
}

/**
 * Which address belongs into a QR code?
 *
 * PUBLIC_URL if it is set; else the address the owner's own browser used; and if that only works on this computer, one
 * of the computer's network addresses, the wanted one if it is among them. Nothing a proxy header says is believed.
 *
 * @param asked  the Host header of the owner's request, "192.168.1.20:3000"
 */
export function choosePublicAddress(from: {
  readonly publicUrl: string | null
  readonly asked: string | null
  /** the browser's own Origin, for the one case in which the Host is the server's: after an action's redirect */
  readonly origin?: string | null
  readonly wanted: string | null
  readonly port: number
  readonly network: readonly NetworkAddress[]
}): PublicAddress {
  if (from.publicUrl) return { address: from.publicUrl, choices: [] }
  const asked = readHost(from.asked)
  if (asked && !isThisComputerOnly(asked.hostname)) return { address: asked.origin, choices: [] }
  const origin = from.origin && URL.canParse(from.origin) ? readHost(new URL(from.origin).host) : null
  if (origin && !isThisComputerOnly(origin.hostname)) return { address: origin.origin, choices: [] }

  const port = asked?.port || String(from.port)
  const choices = from.network
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .toSorted((a, b) => Number(isLinkLocal(a.address)) - Number(isLinkLocal(b.address)))
    .map(({ address }) => `http://${address}:${port}`)
  const wanted = choices.find((choice) => choice === from.wanted)
  return { address: wanted ?? choices[0] ?? null, choices }
}

function readHost(host: string | null): URL | null {
  if (!host || !/^[\w.:[\]-]+$/.test(host)) return null
  return URL.canParse(`http://${host}`) ? new URL(`http://${host}`) : null
}

function isThisComputerOnly(hostname: string): boolean {
  return /^(localhost|.*\.localhost|127(\.\d+){3}|0\.0\.0\.0|\[::1?\])$/.test(hostname)
}

/** 169.254.x.x: what a computer gives itself when no network answered. */
function isLinkLocal(address: string): boolean {
  return address.startsWith('169.254.')
}

/** The same with this process's environment and this computer's network. */
export function publicAddress(
  asked: string | null,
  wanted: string | null,
  origin: string | null = null,
): PublicAddress {
  const { publicUrl, port } = theEnvironment()
  const network = Object.values(networkInterfaces()).flatMap((addresses) => addresses ?? [])
  return choosePublicAddress({ publicUrl, asked, origin, wanted, port, network })
}

/**
 * Where somebody at home finds this house: only by https, under a name or number that is not one network's alone. Null where
 * nobody can.
 */
export function addressFromHome(publicUrl: string | null): string | null {
  if (!publicUrl?.startsWith('https:')) return null
  const { hostname } = new URL(publicUrl)
  const isNear =
    isThisComputerOnly(hostname) ||
    !/[.:]/.test(hostname) ||
    /\.(local|internal|lan|home\.arpa)$/.test(hostname) ||
    /^(10|127|169\.254|192\.168|172\.(1[6-9]|2\d|3[01]))\./.test(hostname) ||
    /^\[(::|f[cd]|fe[89ab])/.test(hostname)
  return isNear ? null : publicUrl
}

/** The same with this process's environment. */
export function theAddressFromHome(): string | null {
  return addressFromHome(theEnvironment().publicUrl)
}
