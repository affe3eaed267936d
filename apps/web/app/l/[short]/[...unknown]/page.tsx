import { notFound } from 'next/navigation'

/** An address of no screen keeps the laboratory around it. */
export default function UnknownPage() {
  notFound()
}
