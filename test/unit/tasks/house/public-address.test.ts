import { expect, test } from 'vitest'
import { addressFromHome, choosePublicAddress } from '@/lib/tasks/house/public-address'

const network = Object.freeze([
  { family: 'IPv4', address: '127.0.0.1', internal: true },
  { family: 'IPv6', address: 'fe80::1', internal: false },
  { family: 'IPv4', address: '169.254.7.7', internal: false },
  { family: 'IPv4', address: '192.168.1.20', internal: false },
  { family: 'IPv4', address: '10.0.0.5', internal: false },
])

const choose = (more: Partial<Parameters<typeof choosePublicAddress>[0]>) =>
  choosePublicAddress({ publicUrl: null, asked: null, wanted: null, port: 3000, network, ...more })

test('PUBLIC_URL outranks all', () => {
  expect(choose({ publicUrl: 'https://kiosk.example', asked: '192.168.1.20:3000' })).toEqual({
    address: 'https://kiosk.example',
    choices: [],
  })
})

test('the address the owner came by is the one phones get', () => {
  expect(choose({ asked: '192.168.1.20:3000' }).address).toBe('http://192.168.1.20:3000')
  expect(choose({ asked: 'kiosk.local' }).address).toBe('http://kiosk.local')
})

test.each(['localhost:3001', '127.0.0.1:3001', '[::1]:3001', 'app.localhost:3001', '0.0.0.0:3001'])(
  'from %s the computer’s network addresses are offered, what no network gave last',
  (asked) => {
    expect(choose({ asked })).toEqual({
      address: 'http://192.168.1.20:3001',
      choices: ['http://192.168.1.20:3001', 'http://10.0.0.5:3001', 'http://169.254.7.7:3001'],
    })
  },
)

test('a wanted address counts only if it is one of this computer’s', () => {
  expect(choose({ asked: 'localhost:3000', wanted: 'http://10.0.0.5:3000' }).address).toBe('http://10.0.0.5:3000')
  expect(choose({ asked: 'localhost:3000', wanted: 'http://evil.example' }).address).toBe('http://192.168.1.20:3000')
})

test('without a network there is no address, and that is said', () => {
  expect(choose({ asked: 'localhost', network: [] })).toEqual({ address: null, choices: [] })
})

test.each(['evil.example/path', 'a b', 'user@host', '', '"><script>'])(
  'a Host that is none is not believed: %s',
  (asked) => {
    expect(choose({ asked }).address).toBe('http://192.168.1.20:3000')
  },
)

test.each(['https://ferrysteps.example', 'https://kiosk.ferrysteps.example:8443', 'https://[2001:db8::1]'])(
  '%s is found from home',
  (address) => {
    expect(addressFromHome(address)).toBe(address)
  },
)

// private networks by RFC 1918, RFC 3927, RFC 4193; names of one network by RFC 6762, RFC 8375
test.each([
  null,
  'http://ferrysteps.example',
  'https://localhost:3000',
  'https://127.0.0.1',
  'https://10.1.2.3',
  'https://172.16.0.9',
  'https://172.31.255.1',
  'https://192.168.1.20',
  'https://169.254.7.7',
  'https://[::1]',
  'https://[fd00::5]',
  'https://[fe80::1]',
  'https://kiosk',
  'https://kiosk.local',
  'https://kiosk.home.arpa',
])('%s is not', (address) => {
  expect(addressFromHome(address)).toBeNull()
})

test('neighbours of the private numbers are public', () => {
  for (const address of ['https://172.15.0.1', 'https://172.32.0.1', 'https://11.0.0.1', 'https://192.169.1.1'])
    expect(addressFromHome(address)).toBe(address)
})
