import 'server-only'

/** A picture of which nothing is left but the picture. */
export interface CleanPhoto {
  readonly type: 'image/jpeg' | 'image/webp'
  readonly bytes: Uint8Array
  readonly width: number
  readonly height: number
}

export type PhotoRefusal = 'too-large' | 'not-a-photo' | 'broken' | 'turned' | 'too-wide'
