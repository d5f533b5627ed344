const ONES =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  )
const TENS = 'zero ten twenty thirty forty fifty sixty seventy eighty ninety'.split(' ')

/** A number in words, for saying two readings apart: 1500 → "one thousand five hundred", 1.5 → "one point five". */
export function numberWords(value: number): string {
  const [whole = '0', decimals = ''] = String(value).split('.')
  const said = wholeWords(Number(whole))
  return decimals === '' ? said : `${said} point ${[...decimals].map((digit) => ONES[Number(digit)] ?? '').join(' ')}`
}

function wholeWords(value: number): string {
  if (value < 20) return ONES[value] ?? ''
  if (value < 100) return `${TENS[Math.floor(value / 10)] ?? ''}${value % 10 === 0 ? '' : `-${ONES[value % 10] ?? ''}`}`
  const [size, name] = value < 1000 ? [100, 'hundred'] : value < 1e6 ? [1000, 'thousand'] : [1e6, 'million']
  const rest = value % size
  const joint = rest === 0 ? '' : rest < 100 ? ' and ' : ' '
  return `${wholeWords(Math.floor(value / size))} ${name}${joint}${rest === 0 ? '' : wholeWords(rest)}`
}
