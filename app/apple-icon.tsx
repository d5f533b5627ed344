import { ImageResponse } from 'next/og'

export const size = { width: 180, height: 180 }
export const contentType = 'image/png'

/** The icon of app/icon.svg in plain boxes, for devices that want a picture. */
export default function AppleIcon() {
  return new ImageResponse(
    <div
      style={{
        width: '100%',
        height: '100%',
        display: 'flex',
        background: '#0f6b5c',
        alignItems: 'center',
        justifyContent: 'center',
      }}
    >
      <div
        style={{
          width: 80,
          height: 110,
          display: 'flex',
          flexDirection: 'column',
          justifyContent: 'flex-end',
          background: '#faf7f2',
        }}
      >
        <div style={{ width: 80, height: 46, background: '#b98a55' }} />
      </div>
    </div>,
    size,
  )
}
