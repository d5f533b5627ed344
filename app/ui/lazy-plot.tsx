'use client'

import dynamic from 'next/dynamic'
import { useEffect, useRef, useState } from 'react'
import type { IntervalPlotProps } from './interval-plot'

// The chart library weighs more than the page: it comes after the words and the table.
const IntervalPlot = dynamic(() => import('./interval-plot').then((file) => file.IntervalPlot), { ssr: false })

/** A plot with its own caption; as wide as its column, at most 720 px, and 640 px on paper. */
export function LazyPlot(props: Omit<IntervalPlotProps, 'width'>) {
  const box = useRef<HTMLDivElement>(null)
  const [width, setWidth] = useState(0)
  useEffect(() => {
    const measure = () => setWidth(Math.min(box.current?.clientWidth ?? 0, 720))
    measure()
    window.addEventListener('resize', measure)
    return () => window.removeEventListener('resize', measure)
  }, [])
  return (
    <figure>
      <figcaption className="mb-1 font-semibold">{props.title}</figcaption>
      <div ref={box} style={{ minHeight: props.rows.length * 48 + 72 }}>
        {width > 0 && <IntervalPlot {...props} width={width} />}
      </div>
    </figure>
  )
}
