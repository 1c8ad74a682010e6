/** An SVG text as a picture: in an <img> it runs no script and fetches nothing, whoever wrote it. */
import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';

interface Props {
  readonly svg: string;
  readonly alt: string;
}

export function SvgPicture({ svg, alt }: Props): JSX.Element {
  const [address, setAddress] = useState('');
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [svg]);
  return <img class="picture" src={address} alt={alt} />;
}
