export default function Loading() {
  return (
    <main id="content" className="mx-auto w-full max-w-5xl px-4 pt-8" aria-busy="true">
      <p role="status" className="text-soft">
        Fetching the page…
      </p>
    </main>
  )
}
